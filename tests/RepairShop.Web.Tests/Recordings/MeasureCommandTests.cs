using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using RepairShop.Testing.Recordings;
using RepairShop.Web.Hosting;
using Xunit;

namespace RepairShop.Web.Tests.Recordings;

/// <summary>The command as it is run, in a process of its own, with no database and no data folder anywhere.</summary>
public sealed class MeasureCommandTests : IDisposable
{
    private const int Rate = 48_000;

    private readonly string folder = Directory.CreateTempSubdirectory("measure-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string File(string name, byte[] content)
    {
        var path = Path.Combine(folder, name);
        System.IO.File.WriteAllBytes(path, content);
        return path;
    }

    private string Pulses(string name, params double[] widths) =>
        File(name, WavBytes.Of(Rate, WavSamples.Pcm16, false, LightPulses.Signal(Rate, LightPulses.Of(widths))));

    private async Task<(int Code, string Out, string Error)> Run(params string[] args)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder };
        foreach (var arg in (string[])[typeof(MeasureOptions).Assembly.Location, "measure", .. args])
            start.ArgumentList.Add(arg);
        using var process = Process.Start(start)!;
        var (said, told) = (process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, await said, await told);
    }

    private async Task<(int Code, JsonElement[] Files)> Json(params string[] args)
    {
        var (code, said, _) = await Run([.. args, "--json"]);
        return (code, [.. JsonDocument.Parse(said).RootElement.EnumerateArray()]);
    }

    [Fact]
    public async Task One_array_with_an_object_a_file_holds_every_figure_in_full()
    {
        double[] widths = [0.25, 1 / 128.0, 1.01 / 128];
        var path = Pulses("a.wav", widths);
        var (code, files) = await Json(path, "--coupling", "dc", "--reference", "1", "--marked", "1/125");
        Assert.Equal(0, code);
        var file = Assert.Single(files);
        Assert.Equal(
            ["file", "outcome", "message", "analysisVersion", "sampleRateHz", "durationSeconds", "coupling", "warnings", "warningTexts", "exposures", "refused", "focalPlane", "flash", "speed"],
            file.EnumerateObject().Select(property => property.Name));
        Assert.Equal((path, "ok", 48_000.0), (file.GetProperty("file").GetString(), file.GetProperty("outcome").GetString(), file.GetProperty("sampleRateHz").GetDouble()));
        Assert.Equal(("dc", JsonValueKind.Null), (file.GetProperty("coupling").GetProperty("kind").GetString(), file.GetProperty("coupling").GetProperty("timeConstantSeconds").ValueKind));
        var exposures = file.GetProperty("exposures").EnumerateArray().ToList();
        Assert.Equal(3, exposures.Count);
        for (var i = 0; i < 3; i++)
        {
            foreach (var name in new[] { "startSeconds", "width50Seconds", "effectiveSeconds", "totalSeconds", "openingSeconds", "closingSeconds", "efficiency" })
                Assert.Equal(JsonValueKind.Number, exposures[i].GetProperty(name).ValueKind);
            Assert.Equal((JsonValueKind.Array, JsonValueKind.Array), (exposures[i].GetProperty("bounces").ValueKind, exposures[i].GetProperty("flags").ValueKind));
            // 48 dB and DC: a quarter of a sample or 0.1 %, three times over for a single error.
            Assert.Equal(widths[i], exposures[i].GetProperty("width50Seconds").GetDouble(), 3 * Math.Max(0.25 / Rate, 0.001 * widths[i]));
        }

        // The reference was made at another speed and is none of the 1/125.
        Assert.Equal(2, file.GetProperty("speed").GetProperty("count").GetInt32());
        Assert.Equal("effective", file.GetProperty("speed").GetProperty("time").GetString());
    }

    [Fact]
    public async Task A_missing_or_broken_file_is_an_object_with_its_reason_and_the_code_is_2()
    {
        var good = Pulses("good.wav", 0.01);
        var (code, files) = await Json(good, Path.Combine(folder, "none.wav"), File("empty.wav", []), File("text.csv", "a,b\n"u8.ToArray()));
        Assert.Equal(2, code);
        Assert.Equal(["ok", "fileMissing", "fileEmpty", "noNumbers"], files.Select(file => file.GetProperty("outcome").GetString()));
        Assert.Equal(JsonValueKind.Null, files[1].GetProperty("sampleRateHz").ValueKind);
        Assert.Equal(0, files[1].GetProperty("exposures").GetArrayLength());
    }

    [Theory]
    [InlineData("--volume", "measure does not know --volume")]
    [InlineData("--coupling=both", "--coupling can't be “both”")]
    [InlineData("--reference=0", "--reference can't be “0”")]
    [InlineData("--channels=contact", "--channels can't be “contact”")]
    [InlineData("--channels=light,light", "--channels can't be “light,light”")]
    [InlineData("--marked=fast", "--marked can't be “fast”")]
    public async Task What_it_does_not_understand_is_told_in_a_sentence(string option, string says)
    {
        var (code, said, told) = await Run("x.wav", option);
        Assert.Equal((2, ""), (code, said));
        Assert.Contains(says, told, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_file_it_asks_for_one()
    {
        var (code, _, told) = await Run("--json");
        Assert.Equal(2, code);
        Assert.Contains("needs at least one file", told, StringComparison.Ordinal);
    }

    [Fact]
    public async Task For_people_it_prints_milliseconds_and_leaves_nothing_behind()
    {
        var (code, said, _) = await Run(Pulses("a.wav", 0.02, 0.02), "--marked", "1/60");
        Assert.Equal(0, code);
        var widths = said.Split('\n').Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            .Where(cells => cells is ["1" or "2", _, _, ..] && cells.Length > 6).Select(cells => double.Parse(cells[2], CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(2, widths.Count);
        // 48 dB and DC: a quarter of a sample or 0.1 %, three times over for a single error; in milliseconds.
        Assert.All(widths, width => Assert.Equal(20, width, 3 * Math.Max(250.0 / Rate, 0.001 * 20)));
        Assert.Contains("1/60: 2 exposures", said, StringComparison.Ordinal);
        Assert.Equal(["a.wav"], Directory.GetFileSystemEntries(folder).Select(Path.GetFileName));
    }
}
