using System.Security.Cryptography;

namespace RepairShop.Services.Files;

/// <summary>Photos, papers and recordings by content: <c>files/ab/cd/&lt;sha256&gt;</c>. Rows point at hashes; a file is on disk,
/// whole and flushed, before its row is saved, so nothing committed is lost.</summary>
public sealed class FileStore(string root)
{
    /// <summary>Stores the bytes unless they are there already.</summary>
    /// <returns>SHA-256 in lower-case hex.</returns>
    /// <exception cref="IOException">The disk is full or can't be written to.</exception>
    public async Task<string> PutAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(bytes.Span));
        var path = PathOf(hash);
        if (File.Exists(path))
            return hash;
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var part = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            await using (var file = new FileStream(part, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                await file.WriteAsync(bytes, cancel);
                file.Flush(flushToDisk: true);
            }
            File.Move(part, path, overwrite: true);
        }
        finally
        {
            File.Delete(part);
        }
        return hash;
    }

    /// <summary>Stores a stream's rest without holding it in memory, unless it is there already.</summary>
    /// <returns>SHA-256 in lower-case hex.</returns>
    /// <exception cref="IOException">The disk is full or can't be written to.</exception>
    public async Task<string> PutAsync(Stream content, CancellationToken cancel)
    {
        Directory.CreateDirectory(root);
        var part = Path.Combine(root, $"{Guid.NewGuid():N}.part");
        try
        {
            using var sha = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            await using (var file = new FileStream(part, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                var block = new byte[1 << 16];
                while (await content.ReadAsync(block, cancel) is var got && got > 0)
                {
                    sha.AppendData(block, 0, got);
                    await file.WriteAsync(block.AsMemory(0, got), cancel);
                }

                file.Flush(flushToDisk: true);
            }

            var hash = Convert.ToHexStringLower(sha.GetHashAndReset());
            Directory.CreateDirectory(Path.GetDirectoryName(PathOf(hash))!);
            File.Move(part, PathOf(hash), overwrite: true);
            return hash;
        }
        finally
        {
            File.Delete(part);
        }
    }

    public Stream OpenRead(string hash) => File.OpenRead(PathOf(hash));

    public Task<byte[]> ReadAsync(string hash, CancellationToken cancel) => File.ReadAllBytesAsync(PathOf(hash), cancel);

    public bool Has(string hash) => File.Exists(PathOf(hash));

    private string PathOf(string hash)
    {
        if (hash.Length != 64 || !hash.All(char.IsAsciiHexDigitLower))
            throw new ArgumentException("A file is named by its SHA-256 in lower-case hex.", nameof(hash));
        return Path.Combine(root, hash[..2], hash[2..4], hash);
    }
}
