namespace RepairShop.Services.Database;

/// <summary>A backup cannot be written or read; the message says what to do about it.</summary>
public sealed class ShopBackupException(string message) : Exception(message);
