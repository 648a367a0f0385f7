using System.Text;

namespace RepairShop.Services.Tests.Recordings;

internal static class CsvTraceRows
{
    /// <summary>As the reader has it.</summary>
    public const int Most = 5_000_000;
}

/// <summary>A table of equal lines, made as it is read: 0.0000001 s apart, a value beside each.</summary>
internal sealed class Rows(int count) : Stream
{
    private const int LineBytes = 16;

    private long position;

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => false;

    public override long Length => (long)count * LineBytes;

    public override long Position { get => position; set => position = value; }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        var done = 0;
        Span<byte> line = stackalloc byte[LineBytes];
        while (done < buffer.Length && position < Length)
        {
            Encoding.ASCII.GetBytes(FormattableString.Invariant($"{position / LineBytes * 1e-6:00.00000000},0.5\n").AsSpan(0, LineBytes), line);
            var from = (int)(position % LineBytes);
            var part = Math.Min(LineBytes - from, buffer.Length - done);
            line.Slice(from, part).CopyTo(buffer[done..]);
            (done, position) = (done + part, position + part);
        }

        return done;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => position = origin switch
    {
        SeekOrigin.Begin => offset,
        SeekOrigin.Current => position + offset,
        _ => Length + offset,
    };

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
