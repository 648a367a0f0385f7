namespace RepairShop.Services.Database;

/// <summary>The private database cannot run; the message says what to do about it.</summary>
public sealed class PrivateClusterException(string message, Exception? inner = null) : Exception(message, inner);
