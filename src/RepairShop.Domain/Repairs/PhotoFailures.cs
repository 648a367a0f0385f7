using RepairShop.Domain.Results;

namespace RepairShop.Domain.Repairs;

/// <summary>The file is something else, whatever it is called.</summary>
public sealed record NotAPicture(string FileName)
    : Invalid("Photos", $"“{FileName}” is not a picture this program can read: send a JPEG, PNG or WebP.");

/// <summary>The format phones use to save space, which browsers and PDF cannot show.</summary>
public sealed record HeicPicture(string FileName)
    : Invalid("Photos", $"“{FileName}” is a HEIC picture: set the phone’s camera to “Most compatible” (JPEG) and take it again, or send it as a JPEG.");

/// <summary>More bytes than a photo needs.</summary>
public sealed record PictureFileTooLarge(string FileName, long Bytes)
    : Invalid("Photos", $"“{FileName}” has {Math.Ceiling(Bytes / 100_000m) / 10:0.#} MB; the most is 25 MB: send it smaller.");

/// <summary>More pixels than the machine should be asked to open.</summary>
public sealed record PictureTooManyPixels(string FileName, int Width, int Height)
    : Invalid("Photos", $"“{FileName}” has {Width} × {Height} pixels; the most is 100 million: send it smaller.");

/// <summary>It begins like a picture but cannot be read to its end.</summary>
public sealed record PictureDamaged(string FileName)
    : Invalid("Photos", $"“{FileName}” is damaged or was cut off on the way: send it again.");
