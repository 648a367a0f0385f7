using RepairShop.Services.Repairs;

namespace RepairShop.Web.Forms;

/// <summary>Uploaded files as bytes in hand; the size limit of the pipeline holds for all of them together.</summary>
public static class Uploads
{
    public static async Task<IReadOnlyList<PhotoFile>> ReadAsync(IEnumerable<IFormFile> files, CancellationToken ct)
    {
        var read = new List<PhotoFile>();
        foreach (var file in files.Where(file => file.Length > 0))
        {
            using var bytes = new MemoryStream((int)file.Length);
            await file.CopyToAsync(bytes, ct);
            read.Add(new PhotoFile(Path.GetFileName(file.FileName), bytes.ToArray()));
        }

        return read;
    }
}
