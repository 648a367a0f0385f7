using RepairShop.Domain.Findings;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.Worksheets;
using RepairShop.Measurement.Checks;
using RepairShop.Services.Findings;
using RepairShop.Services.Worksheets;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Worksheets;

public sealed class WorksheetServiceTests(PostgresServer server)
{
    private static readonly WorksheetFinding Tired = new("Mainspring", "Spring at rest", new Gauge(4.1, "o'clock", null, 3.5), "Unhooked, the end rests at 4:06.");

    private static CancellationToken Ct => Workshop.Cancel;

    [Fact]
    public async Task A_sheet_opens_with_the_cameras_dial_and_the_words_that_call_for_cautions()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair((job, camera) => (job.Complaint, camera.Notes) = ("Meter dead", "selenium cell"));
        var opened = await shop.Do<WorksheetService, WorksheetRepair?>(sheets => sheets.OpenAsync(repair.Number, Ct));
        Assert.Equal(("1", "B"), (opened!.Dial[0], opened.Dial[^1]));
        Assert.Equal([Caution.SeleniumCell], CautionWords.In(opened.Texts));
        Assert.Null(await shop.Do<WorksheetService, WorksheetRepair?>(sheets => sheets.OpenAsync("2026-9999", Ct)));
    }

    [Fact]
    public async Task A_result_is_kept_as_a_finding_with_its_gauge_and_verdict_and_only_once()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var once = Guid.CreateVersion7();
        for (var press = 0; press < 2; press++)
            Assert.True((await shop.Do<WorksheetService, Result<Guid>>(sheets => sheets.KeepAsync(repair, Tired, once, Ct))).IsDone);
        var finding = Assert.Single(await shop.Do<FindingService, IReadOnlyList<FindingLine>>(findings => findings.ForRepairAsync(repair, Ct)));
        Assert.Equal(("Mainspring", Condition.Worn, "Spring at rest"), (finding.Component, finding.Condition, finding.GaugeName));
        Assert.Equal(new Gauge(4.1, "o'clock", null, 3.5), finding.Gauge);
        Assert.Equal(Verdict.Outside, finding.Gauge!.Verdict);
    }
}
