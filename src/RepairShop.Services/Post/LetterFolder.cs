using System.Globalization;
using MimeKit;
using RepairShop.Domain.Post;

namespace RepairShop.Services.Post;

/// <summary>Letters as <c>.eml</c> files, each under one name for ever: a letter written twice after a crash is one file.</summary>
internal static class LetterFolder
{
    public static string NameOf(OutboxMail mail) =>
        string.Create(CultureInfo.InvariantCulture, $"{mail.CreatedAt.UtcDateTime:yyyyMMdd-HHmmss}-{mail.Id:N}.eml");

    public static async Task WriteAsync(string folder, OutboxMail mail, MimeMessage message, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, NameOf(mail));
        var part = path + ".part";
        await using (var file = new FileStream(part, FileMode.Create, FileAccess.Write, FileShare.None))
        {
            await message.WriteToAsync(file, cancel);
            file.Flush(flushToDisk: true);
        }
        File.Move(part, path, overwrite: true);
    }
}
