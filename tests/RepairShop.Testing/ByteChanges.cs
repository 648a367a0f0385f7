namespace RepairShop.Testing;

/// <summary>Files spoilt at random, the same way for the same seed: bits turned, bytes put in, taken out, said twice, the end cut off.</summary>
public static class ByteChanges
{
    /// <param name="good">A file that can be read.</param>
    /// <param name="chance">With a seed of its own, so that a failure comes again.</param>
    /// <param name="telling">Bytes that mean something in this kind of file.</param>
    /// <param name="head">Half of the changes fall into this many bytes at the front; null: they fall anywhere.</param>
    public static byte[] Spoil(byte[] good, Random chance, ReadOnlySpan<byte> telling, int? head = null)
    {
        ArgumentNullException.ThrowIfNull(chance);
        var bytes = good.ToList();
        for (var changes = chance.Next(1, 6); changes > 0 && bytes.Count > 0; changes--)
        {
            var at = chance.Next(head is { } front && chance.Next(2) == 0 ? Math.Min(front, bytes.Count) : bytes.Count);
            switch (chance.Next(6))
            {
                case 0:
                    bytes[at] ^= (byte)(1 << chance.Next(8));
                    break;
                case 1:
                    bytes[at] = telling[chance.Next(telling.Length)];
                    break;
                case 2:
                    bytes.RemoveRange(at, Math.Min(bytes.Count - at, chance.Next(1, 9)));
                    break;
                case 3:
                    bytes.InsertRange(at, bytes.GetRange(at, Math.Min(bytes.Count - at, chance.Next(1, 400))));
                    break;
                case 4:
                    bytes.Insert(at, telling[chance.Next(telling.Length)]);
                    break;
                default:
                    if (chance.Next(4) == 0)
                        bytes.RemoveRange(at, bytes.Count - at);
                    break;
            }
        }
        return [.. bytes];
    }
}
