using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Domain.ShutterTests;
using RepairShop.Services.Paperwork;
using RepairShop.Testing;
using Xunit;
using CheckOutcome = RepairShop.Domain.Checks.CheckOutcome;

namespace RepairShop.Services.Tests.Paperwork;

public sealed class PaperServiceTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static Task<Result<IssuedPaper>> Make(MoneyBook book, string number, PaperKind kind, bool byMail = false) =>
        book.Do<PaperService, Result<IssuedPaper>>(service => service.MakeAsync(number, kind, "https://book.example.com", byMail, Ct));

    private static Task<Result<PaperFile>> Open(MoneyBook book, Guid id) =>
        book.Do<PaperService, Result<PaperFile>>(service => service.OpenAsync(id, Ct));

    [Fact]
    public async Task A_paper_comes_out_again_byte_for_byte_whatever_changed_since()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair()).Number;
        var paper = MoneyBook.Done(await Make(book, number, PaperKind.ClaimTagPage));
        var first = MoneyBook.Done(await Open(book, paper.Id));
        await book.Db(db => db.Customers.ExecuteUpdateAsync(set => set.SetProperty(customer => customer.Name, "Somebody Else"), Ct));
        var again = MoneyBook.Done(await Open(book, paper.Id));
        Assert.Equal(first.Bytes, again.Bytes);
        Assert.Equal(("claim-tag-2026-0001-t1.pdf", first.Hash), (again.FileName, again.Hash));
        Assert.Equal("2026-0001-T2", MoneyBook.Done(await Make(book, number, PaperKind.ClaimTagPage)).Number);
    }

    [Fact]
    public async Task A_file_that_was_tampered_with_or_lost_is_told_and_not_given_out()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var paper = MoneyBook.Done(await Make(book, (await book.Repair()).Number, PaperKind.ClaimTag));
        var hash = MoneyBook.Done(await Open(book, paper.Id)).Hash;
        var path = Path.Combine(book.Folder, "files", hash[..2], hash[2..4], hash);
        await File.AppendAllTextAsync(path, "x", Ct);
        var damaged = Assert.IsType<PaperDamaged>((await Open(book, paper.Id)).Failure);
        Assert.Equal(hash, damaged.Expected);
        Assert.NotEqual(hash, damaged.Found);
        File.Delete(path);
        Assert.IsType<PaperFileMissing>((await Open(book, paper.Id)).Failure);
    }

    [Fact]
    public async Task Characters_no_font_has_are_reported_to_the_person()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var paper = MoneyBook.Done(await Make(book, (await book.Repair(name: "Cuneiform 𒀀")).Number, PaperKind.ClaimTagPage));
        Assert.Contains("𒀀", paper.MissingCharacters);
    }

    [Fact]
    public async Task The_service_record_holds_figures_before_and_after_findings_parts_and_cautions()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair();
        await book.Db(async db =>
        {
            db.ShutterTests.AddRange(
                Test(repair.Id, Phase.AsReceived, book, 0.016, 0.0165, 0.017),
                Test(repair.Id, Phase.AfterService, book, 0.0079, 0.0080, 0.0081));
            db.CheckResults.AddRange(
                Check(repair.Id, Phase.AsReceived, CheckOutcome.Faulty, "drags"), Check(repair.Id, Phase.AfterService, CheckOutcome.Fine, ""));
            db.Findings.AddRange(
                new Finding { RepairId = repair.Id, Component = "Escapement", Condition = Condition.Contaminated, Text = "Old oil", ActionTaken = "Flushed with naphtha", FoundAt = book.Clock.GetUtcNow() },
                new Finding { RepairId = repair.Id, Component = "Wallet", Text = "For us only", OnServiceRecord = false, FoundAt = book.Clock.GetUtcNow() });
            db.PartUses.Add(new PartUse { RepairId = repair.Id, Text = "Cell", Quantity = 1, Unit = "pcs", Provenance = Provenance.Donor, UsedAt = book.Clock.GetUtcNow() });
            (await db.Cameras.SingleAsync(Ct)).MarkedSpeeds = ["1/60", "1/125"];
            (await db.Repairs.SingleAsync(Ct)).LeftAlone = "Light seals: still sound";
            await db.SaveChangesAsync(Ct);
        });
        var paper = MoneyBook.Done(await Make(book, repair.Number, PaperKind.ServiceRecord, byMail: true));
        var facts = (ServiceRecordFacts)MoneyBook.Done(await book.Do<PaperService, Result<PaperPage>>(service => service.ReadAsync(paper.Id, Ct))).Facts;
        var row = Assert.Single(facts.ShutterRows);
        Assert.Equal(("1/125", 3, 0.0165), (row.MarkedSpeed, row.AsReceived!.Count, Math.Round(row.AsReceived.MeanSeconds, 6)));
        Assert.Equal(Math.Log2(0.0165 / (1.0 / 128)), row.AsReceived.ErrorStops, 9);
        Assert.Equal(LimitVerdict.Outside, row.AsReceived.Verdict);
        Assert.Equal(LimitVerdict.Within, row.AfterService!.Verdict);
        Assert.Equal("Escapement", Assert.Single(facts.Findings).Component);
        Assert.Equal("donor camera", Assert.Single(facts.PartsFitted).Provenance);
        Assert.Equal([Caution.FlammableSolvent], facts.Cautions);
        Assert.Equal(new LeftAloneFacts("Light seals", "still sound"), Assert.Single(facts.LeftAlone));
        Assert.Equal(
            (Domain.Paperwork.CheckOutcome.Faulty, Domain.Paperwork.CheckOutcome.Fine),
            (facts.Checks[0].AsReceived!.Value, facts.Checks[0].AfterService!.Value));
        Assert.Equal([paper.Id], await book.Db(db => db.Outbox.Select(mail => mail.PaperIds).SingleAsync(Ct)));
    }

    [Theory]
    [InlineData(PaperKind.Estimate)]
    [InlineData(PaperKind.Invoice)]
    [InlineData(PaperKind.CreditNote)]
    public async Task Papers_with_a_step_of_their_own_are_not_made_here(PaperKind kind)
    {
        await using var book = await MoneyBook.OpenAsync(server);
        Assert.Equal(new PaperMadeElsewhere(kind), (await Make(book, (await book.Repair()).Number, kind)).Failure);
    }

    [Fact]
    public async Task The_bench_sheet_says_what_is_approved_and_which_times_to_take()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var number = (await book.Repair(preApproved: 90)).Number;
        await book.Db(db => db.Cameras.ExecuteUpdateAsync(set => set.SetProperty(camera => camera.MarkedSpeeds, new[] { "1/125", "B" }), Ct));
        var paper = MoneyBook.Done(await Make(book, number, PaperKind.BenchSheet));
        var facts = (BenchSheetFacts)MoneyBook.Done(await book.Do<PaperService, Result<PaperPage>>(service => service.ReadAsync(paper.Id, Ct))).Facts;
        Assert.Equal(90, facts.ApprovedUpTo);
        var reading = Assert.Single(facts.Readings);
        Assert.Equal(1.0 / 128, reading.ReferenceSeconds, 12);
        Assert.Equal(1.0 / 128 * Math.Pow(2, 0.3), reading.LongestSeconds!.Value, 12);
    }

    private static ShutterTest Test(Guid repair, Phase phase, MoneyBook book, params double[] seconds) => new()
    {
        RepairId = repair,
        Phase = phase,
        MeasuredAt = book.Clock.GetUtcNow(),
        MeasuredBy = book.Person,
        Instrument = "Light gate",
        SlowLimitStops = 0.3,
        FastLimitStops = 0.45,
        LimitBoundarySeconds = 1.0 / 125,
        LimitProvenance = "Our own.",
        Readings = [.. seconds.Select((value, index) => new Reading
        {
            MarkedSpeed = "1/125",
            Position = index,
            Seconds = value,
            Typed = "x",
            ReadAt = book.Clock.GetUtcNow(),
        })],
    };

    private static CheckResult Check(Guid repair, Phase phase, CheckOutcome outcome, string note) => new()
    {
        RepairId = repair,
        Phase = phase,
        Name = "Slow speeds",
        Position = 1,
        Outcome = outcome,
        Note = note,
        CheckedAt = new DateTimeOffset(2026, 11, 24, 9, 0, 0, TimeSpan.Zero),
    };
}
