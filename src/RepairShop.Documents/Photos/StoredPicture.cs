namespace RepairShop.Documents.Photos;

/// <summary>A photo fit to keep: upright, at most 2560 pixels on the long edge, without a word about where and with what it was taken.</summary>
/// <param name="Jpeg">The picture.</param>
/// <param name="Width">In pixels.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Thumbnail">The same as JPEG, at most 480 pixels on the long edge.</param>
public sealed record StoredPicture(byte[] Jpeg, int Width, int Height, byte[] Thumbnail);
