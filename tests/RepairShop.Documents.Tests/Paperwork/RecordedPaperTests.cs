using System.Text.Json.Nodes;
using RepairShop.Documents.Paperwork;
using RepairShop.Documents.Tests.Charts;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

/// <summary>A service record whose times were recorded; and one from before there were recordings.</summary>
public class RecordedPaperTests
{
    private static string Text(ServiceRecordFacts facts) => ReadBack.PdfToText(PaperRenderer.Render(PaperKind.ServiceRecord, facts));

    private static readonly ServiceRecordFacts Recorded = Sample.ServiceRecord with
    {
        Traces = [.. new[] { "1 s", "½", "1/125" }.Select(mark => new SpeedTraceFacts { MarkedSpeed = mark, AsReceived = ExposureChartTests.Trace(8), AfterService = ExposureChartTests.Trace(2) })],
        Curtains =
        [
            new CurtainRowFacts
            {
                MarkedSpeed = "1/500", AfterService = true, Count = 3, FirstCurtainMilliseconds = 12.34, SecondCurtainMilliseconds = 12.11,
                Points = [new PointFacts(-16.2, 2.04, 6.1), new PointFacts(0, 1.98, 5.9), new PointFacts(16.2, 1.93, 5.7)], NonUniformityStops = 0.08,
            },
        ],
        Flash = [new FlashRowFacts { MarkedSpeed = "1/60", AfterService = true, Contact = "X", Count = 2, ToFullyOpenMilliseconds = -0.42, Verdict = LimitVerdict.Within }],
        ShutterRows = [.. Sample.ServiceRecord.ShutterRows.Select(row => row with
        {
            AfterService = row.AfterService! with
            {
                Meaning = TimeMeaning.Effective,
                Terms = [new("scatter", 12.3e-6), new("resolution", 6.01e-6), new("trigger", 2.2e-6)],
            },
        })],
    };

    [Fact]
    public void The_paper_shows_the_light_the_curtains_the_contact_and_the_terms()
    {
        var text = Text(Recorded);
        foreach (var said in new[] { "Light over time", "Curtains", "12.34", "Flash contact", "−0.42", "Effective times", "Terms of the uncertainty after service", "0.0123 + 0.0060 + 0.0022" })
            Assert.Contains(said, text);
    }

    [Fact]
    public void Recorded_facts_read_back_are_the_facts_that_were_written()
    {
        var back = PaperJson.Read(PaperKind.ServiceRecord, PaperJson.Write(Recorded));
        Assert.Equivalent(Recorded, back, strict: true);
    }

    [Fact]
    public void Facts_frozen_before_there_were_recordings_still_read_and_print()
    {
        var json = JsonNode.Parse(PaperJson.Write(Sample.ServiceRecord))!.AsObject();
        foreach (var name in new[] { "Traces", "Curtains", "Flash" })
            Assert.True(json.Remove(name));
        foreach (var row in json["ShutterRows"]!.AsArray())
        {
            foreach (var side in new[] { "AsReceived", "AfterService" })
                Assert.True(row![side]!.AsObject().Remove("Terms"));
        }

        var old = (ServiceRecordFacts)PaperJson.Read(PaperKind.ServiceRecord, json.ToJsonString());
        Assert.Equivalent(Sample.ServiceRecord, old, strict: true);
        Assert.DoesNotContain("Light over time", Text(old));
    }
}
