using System.Net;
using System.Net.Http.Headers;
using Microsoft.EntityFrameworkCore;
using RepairShop.Testing;
using RepairShop.Testing.Recordings;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.Recordings;

public class RecordingStories(PostgresServer server)
{
    private const string Shutter = "/repairs/2026-0001/shutter/as-received";
    private const int Rate = 48_000;

    private static byte[] Wav(params double[] widths) =>
        WavBytes.Of(Rate, WavSamples.Pcm16, false, LightPulses.Signal(Rate, LightPulses.Of(widths)));

    [Fact]
    public async Task A_recording_is_sent_in_given_its_speeds_and_a_bad_exposure_struck_out()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/8", "1/60", "1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(Shutter);
        await client.Open(Shutter + "/recording");
        var file = Wav(0.125, 1 / 60.0, 1 / 58.0);
        await client.Upload("Analyse it", "Input.File", "bench.wav", file);
        Assert.Equal("The recording is kept. Say which speed each exposure is.", client.Notice);
        Assert.Equal(3, client.Page.QuerySelectorAll("figure svg.chart").Length);
        await client.Press("Save the speeds", ("Exposures[0].Mark", "1/8"), ("Exposures[1].Mark", "1/60"), ("Exposures[2].Mark", "1/60"));
        Assert.Equal("The speeds are saved.", client.Notice);
        var page = client.Url;
        await client.Press("Strike out", ("reason", "door slammed"));
        Assert.Contains("struck out: door slammed", client.Text, StringComparison.Ordinal);
        Assert.Equal(2, await app.WithDb(db => db.Readings.CountAsync(row => row.StruckOutReason == null)));
        await client.Press("Analyse again", ("Rig.Reference", "1"));
        Assert.Equal("Analysed again. The readings before are struck out and kept.", client.Notice);
        Assert.Equal(2, await app.WithDb(db => db.Readings.CountAsync(row => row.StruckOutReason == null)));

        var download = await client.Http.GetAsync(page + "/file", TestContext.Current.CancellationToken);
        Assert.Equal(("application/octet-stream", "bench.wav"), (download.Content.Headers.ContentType!.MediaType, download.Content.Headers.ContentDisposition!.FileName!.Trim('"')));
        Assert.Equal(file, await download.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
        await client.Open("/repairs/2026-0001/signals");
        Assert.NotNull(client.Page.QuerySelector("svg .before-trace"));
        await client.Open(Shutter);
        Assert.Contains("effective time", client.Text, StringComparison.Ordinal);
        Assert.Contains("noise at the crossings", client.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text,only\n", "No line of the first hundred holds a time and a value")]
    [InlineData("", "The file is empty")]
    [InlineData("0,1\n0.001,oops\n0.002,1\n", "Line 2, column 2")]
    public async Task A_file_that_can_not_be_read_is_refused_at_its_field_and_the_rest_stays(string text, string says)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(Shutter + "/recording");
        await client.Upload("Analyse it", "Input.File", "scope.csv", System.Text.Encoding.UTF8.GetBytes(text), ("Input.Marks", "1/125 ×3"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains(says, client.Page.QuerySelector("#Input_File-error")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("1/125 ×3", client.Value("Input.Marks"));
    }

    [Fact]
    public async Task A_file_above_thirty_megabytes_comes_through_here_and_nowhere_else()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        var large = WavBytes.Of(Rate, WavSamples.Ieee64, false, LightPulses.Signal(Rate, LightPulses.Of(0.01), tail: 90));
        Assert.True(large.Length > 31 * 1024 * 1024);
        await client.Open(Shutter + "/recording");
        await client.Upload("Analyse it", "Input.File", "long.wav", large, ("Input.Marks", "1/125"));
        Assert.Equal("The recording is kept and its exposures are readings.", client.Notice);
        await client.Open("/repairs/2026-0001/photos");
        await client.Upload("Add photos", "files", "large.jpg", large);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, client.Status);
    }

    [Fact]
    public async Task The_capture_page_answers_each_release_with_the_table_or_a_sentence()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/60", "1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(Shutter + "/capture");
        Assert.Contains("session=", client.Url, StringComparison.Ordinal);
        foreach (var caution in new[] { "A lamp gets hot", "use a lamp on direct current", "old flashguns carry 200–400 V" })
            Assert.Contains(caution, client.Text, StringComparison.Ordinal);
        var form = client.Page.QuerySelector("form[data-capture]")!;
        await Release(client, form.GetAttribute("data-release")!, Wav(1 / 125.0), "1/125");
        Assert.Equal(HttpStatusCode.OK, client.Status);
        Assert.Equal(0.008, double.Parse(client.Page.QuerySelector("[data-reading]")!.GetAttribute("data-reading")!, System.Globalization.CultureInfo.InvariantCulture), 3 * 0.25 / Rate);
        await client.Open(Shutter + "/capture");
        await Release(client, form.GetAttribute("data-release")!, Wav(1 / 125.0), "1/125", lost: 2);
        Assert.Contains("The browser lost 2 blocks of sound", client.Text, StringComparison.Ordinal);
        await client.Open(Shutter + "/capture");
        await Release(client, form.GetAttribute("data-release")!, WavBytes.Of(Rate, WavSamples.Ieee32, false, new float[Rate]), "1/125");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains("one constant value", client.Text, StringComparison.Ordinal);
        Assert.Equal(2, await app.WithDb(db => db.Recordings.CountAsync()));
    }

    [Fact]
    public async Task A_time_can_be_typed_on_the_capture_page()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/60", "1/125"]);
        await app.WithDb(db => db.Shop.ExecuteUpdateAsync(row => row.SetProperty(shop => shop.DefaultInstrument, "Light gate")));
        using var client = await app.SignedIn("bench");
        await client.Open(Shutter + "/capture");
        await client.Press("Save typed", ("mark", "1/125"), ("Text", "abc"));
        Assert.Contains("“abc” is not a time", client.Page.QuerySelector("#Text-error")!.TextContent, StringComparison.Ordinal);
        await client.Press("Save typed", ("mark", "1/125"), ("Text", "8.2 ms"));
        Assert.Equal("The typed time is saved.", client.Notice);
        Assert.Equal("8.2 ms", await app.WithDb(db => db.Readings.Select(row => row.Typed).SingleAsync()));
    }

    [Theory]
    [InlineData("/repairs/2026-0001/recordings/00000000-0000-0000-0000-000000000001")]
    [InlineData("/repairs/2026-0001/recordings/00000000-0000-0000-0000-000000000001/file")]
    [InlineData("/repairs/2026-9999/signals")]
    [InlineData("/repairs/2026-0001/shutter/never/capture")]
    public async Task What_is_not_there_is_not_found(string url)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(url);
        Assert.Equal(HttpStatusCode.NotFound, client.Status);
    }

    private static async Task Release(FormClient client, string address, byte[] wav, string mark, int lost = 0)
    {
        var token = ((AngleSharp.Html.Dom.IHtmlInputElement)client.Page.QuerySelector("form[data-capture] [name='__RequestVerificationToken']")!).Value;
        using var content = new MultipartFormDataContent
        {
            { new StringContent(token), "__RequestVerificationToken" },
            { new StringContent(Guid.CreateVersion7().ToString()), "release" },
            { new StringContent(mark), "mark" },
            { new StringContent($"{lost}"), "lost" },
            { new StringContent("Light"), "roles" },
        };
        var file = new ByteArrayContent(wav);
        file.Headers.ContentType = new MediaTypeHeaderValue("audio/wav");
        content.Add(file, "file", "release.wav");
        using var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = content };
        request.Headers.Add("X-Requested-With", "fetch");
        await client.Send(request);
    }
}
