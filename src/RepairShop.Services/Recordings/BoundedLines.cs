namespace RepairShop.Services.Recordings;

/// <summary>Passes a text on and stops at a line that is too long, before anything has gathered it up.</summary>
internal sealed class BoundedLines(TextReader inner, int longest) : TextReader
{
    private int length;
    private long line = 1;

    public override int Read(char[] buffer, int index, int count) => Read(buffer.AsSpan(index, count));

    public override int Read(Span<char> buffer)
    {
        var got = inner.Read(buffer);
        var rest = buffer[..got];
        while (rest.IndexOf('\n') is var end && end >= 0)
        {
            Grow(end);
            (length, line) = (0, line + 1);
            rest = rest[(end + 1)..];
        }

        Grow(rest.Length);
        return got;
    }

    private void Grow(int by)
    {
        length += by;
        if (length > longest)
            throw new LineTooLongException(line);
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
            inner.Dispose();
        base.Dispose(disposing);
    }
}

/// <summary>A line longer than any table's; becomes a named refusal where the table is read.</summary>
internal sealed class LineTooLongException(long line) : IOException
{
    public long Line => line;
}
