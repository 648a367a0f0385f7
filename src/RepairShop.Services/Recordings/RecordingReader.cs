using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>What a recording's file turned out to be.</summary>
public sealed record ReadRecording(Recording Recording, RecordingKind Kind);

/// <summary>
/// Reads a light sensor's recording from a WAV file or an oscilloscope's CSV, told apart by their content. A file that can't be read is refused
/// with the place and the reason; nothing is allocated on a header's word.
/// </summary>
public static class RecordingReader
{
    public const long MostBytes = 200_000_000;

    public const double MostSeconds = 600;

    /// <summary>Reads the file at a path.</summary>
    public static Result<ReadRecording> Read(string path)
    {
        try
        {
            // A pipe or device has no length; opening one could wait for ever.
            if (new FileInfo(path) is { Exists: true, Length: 0 })
                return new FileEmpty();
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            return Read(file);
        }
        catch (Exception missing) when (missing is FileNotFoundException or DirectoryNotFoundException)
        {
            return new FileMissing();
        }
        catch (Exception denied) when (denied is UnauthorizedAccessException or IOException or ArgumentException or NotSupportedException)
        {
            return Directory.Exists(path) || File.Exists(path) ? new FileUnreadable() : new FileMissing();
        }
    }

    /// <summary>Reads from a stream that can be positioned; it is left open.</summary>
    public static Result<ReadRecording> Read(Stream file)
    {
        if (!file.CanSeek)
            return new FileUnreadable();
        if (file.Length == 0)
            return new FileEmpty();
        if (file.Length > MostBytes)
            return new FileTooLarge(file.Length);
        var head = new byte[4096];
        var got = file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        file.Position = 0;
        if (WavHeader.Looks(head.AsSpan(0, got)))
            return Of(WavReader.Read(file), RecordingKind.Wav);
        return LooksLikeText(head.AsSpan(0, got)) ? Of(CsvTrace.Read(file), RecordingKind.Csv) : new NotARecording();
    }

    private static Result<ReadRecording> Of(Result<Recording> read, RecordingKind kind) =>
        read.IsDone ? new ReadRecording(read.Value, kind) : read.Failure;

    /// <summary>UTF-16 with its mark is text with zeros; otherwise a text has no control characters but blanks and line ends.</summary>
    private static bool LooksLikeText(ReadOnlySpan<byte> head)
    {
        if (head.Length >= 2 && head[..2] is [0xFF, 0xFE] or [0xFE, 0xFF])
            return true;
        foreach (var letter in head)
        {
            if (letter < ' ' && letter is not ((byte)'\t' or (byte)'\r' or (byte)'\n' or (byte)'\f' or 0x1A))
                return false;
        }

        return true;
    }
}
