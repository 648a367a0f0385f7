using System.Text;
using RepairShop.Domain.Recordings;
using RepairShop.Services.Recordings;
using RepairShop.Testing;
using RepairShop.Testing.Recordings;
using Xunit;

namespace RepairShop.Services.Tests.Recordings;

/// <summary>Files that lie about their size cost nothing, and no change of a byte makes a reader fail in another way than by name.</summary>
[Collection(nameof(Alone))]
public sealed class HostileFileTests
{
    private const int Cases = 3_000, Seed = 20_261_125;

    private const long MostBytes = 200_000_000;

    [Fact]
    public void A_header_that_claims_two_thousand_million_samples_costs_no_memory()
    {
        var bytes = WavBytes.Of(48_000, WavSamples.Pcm16, false, new float[64]);
        bytes[43] = 0xFF;
        Assert.True(Spent(() => Assert.IsType<LengthWrong>(WavReaderTests.Read(bytes).Failure)) < 1_000_000);
    }

    [Fact]
    public void A_thousand_million_rows_are_refused_by_their_size()
    {
        var path = Path.Combine(Directory.CreateTempSubdirectory("rows-").FullName, "rows.csv");
        using (var file = File.Create(path))
        {
            file.Write("Time,A\n0,0\n0.0001,0\n"u8);
            file.SetLength(9_000_000_000); // sparse: a thousand million lines of nine letters
        }

        try
        {
            Assert.True(Spent(() => Assert.Equal(new FileTooLarge(9_000_000_000), RecordingReader.Read(path).Failure)) < 1_000_000);
        }
        finally
        {
            Directory.Delete(Path.GetDirectoryName(path)!, recursive: true);
        }
    }

    /// <summary>The longest text that is not refused by its size: every line one more, up to the most lines.</summary>
    [Fact]
    public void A_table_with_more_rows_than_are_read_is_refused_within_its_memory()
    {
        var before = GC.GetTotalMemory(forceFullCollection: true); // what tests before this one still hold is not the reader's
        var spent = Spent(() => Assert.IsType<TooManyRows>(RecordingReader.Read(new Rows(CsvTraceRows.Most + 1)).Failure));
        // Garbage of the rows' texts is not held: what counts is what is alive at once.
        Assert.True(GC.GetTotalMemory(forceFullCollection: true) - before < MostBytes, $"{spent} bytes went through");
    }

    [Theory]
    [InlineData(WavSamples.Pcm8, false)]
    [InlineData(WavSamples.Pcm16, false)]
    [InlineData(WavSamples.Pcm24, true)]
    [InlineData(WavSamples.Pcm32, true)]
    [InlineData(WavSamples.Ieee32, false)]
    [InlineData(WavSamples.Ieee64, true)]
    public void A_changed_WAV_file_is_read_or_refused_by_name(WavSamples kind, bool extensible)
    {
        var good = WavBytes.Of(48_000, kind, extensible, [.. Enumerable.Range(0, 40).Select(i => i / 50f)], new float[40]);
        // Most of what can go wrong stands in the header: half of all changes go there.
        Mutate(good, Math.Min(good.Length, 80));
    }

    [Theory]
    [InlineData("Time,A\ns,V\n", ",")]
    [InlineData("", ";")]
    [InlineData("a b c\nTime (ms)\tA\n", "\t")]
    public void A_changed_table_is_read_or_refused_by_name(string head, string delimiter)
    {
        var text = head + string.Concat(Enumerable.Range(0, 60).Select(i => FormattableString.Invariant($"{i * 1e-4:0.0000}{delimiter}{i % 9 / 10.0:0.0}\n")));
        Mutate(Encoding.UTF8.GetBytes(text), text.Length);
    }

    private static void Mutate(byte[] good, int header)
    {
        var chance = new Random(Seed);
        byte[] telling = [0, 1, 2, 0x7F, 0x80, 0xFE, 0xFF, (byte)',', (byte)';', (byte)'"', (byte)'\n', (byte)'-', (byte)'e', (byte)'9', (byte)'.'];
        for (var i = 0; i < Cases; i++)
        {
            var read = WavReaderTests.Read(ByteChanges.Spoil(good, chance, telling, header));
            Assert.True(read.IsDone || read.Failure is FileRefused { Message.Length: > 0 }, $"case {i}: {read.Failure}");
        }
    }

    private static long Spent(Action deed)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        deed();
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }
}
