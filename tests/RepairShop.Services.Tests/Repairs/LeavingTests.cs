using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Repairs;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Repairs;

public sealed class LeavingTests(PostgresServer server)
{
    private static CancellationToken Cancel => CounterBook.Cancel;

    private static Task<Result> Leave(CounterBook book, Func<LeavingService, Task<Result>> work, bool asOwner = true) => book.Do(work, asOwner);

    private static async Task<SheetMargin> Margin(CounterBook book, string number) =>
        (await book.Do<SheetService, Result<RepairSheet>>(sheets => sheets.GetAsync(number, Cancel))).Value!.Margin;

    private static Task<int> Add(CounterBook book, params object[] rows) => book.Db(async db =>
    {
        db.AddRange(rows);
        return await db.SaveChangesAsync(Cancel);
    });

    [Fact]
    public async Task A_repair_is_not_called_ready_while_something_is_missing_and_the_refusal_names_it()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var booked = await book.Book();
        var refused = await Leave(book, leaving => leaving.ReadyAsync(booked.Number, Cancel));
        var missing = Assert.IsType<RepairNotReady>(refused.Failure).Missing;
        Assert.Equal([StillMissing.AfterServiceChecks, StillMissing.ServiceRecord], missing);
    }

    [Fact]
    public async Task What_the_owner_lets_pass_is_kept_with_the_reason_and_opens_the_way()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var number = (await book.Book()).Number;
        Task<Result> Pass(StillMissing item, string reason = "agreed with the customer", bool asOwner = true) =>
            Leave(book, leaving => leaving.PassAsync(number, item, reason, Cancel), asOwner);

        Assert.IsType<PassOnlyByOwner>((await Pass(StillMissing.ServiceRecord, asOwner: false)).Failure);
        Assert.IsType<PassReasonMissing>((await Pass(StillMissing.ServiceRecord, " ")).Failure);
        Assert.IsType<PassNotNeeded>((await Pass(StillMissing.Payment)).Failure);
        Assert.True((await Pass(StillMissing.ServiceRecord)).IsDone);
        Assert.IsType<PassedAlready>((await Pass(StillMissing.ServiceRecord)).Failure);
        Assert.True((await Pass(StillMissing.AfterServiceChecks)).IsDone);
        Assert.True((await Leave(book, leaving => leaving.ReadyAsync(number, Cancel))).IsDone);
        var margin = await Margin(book, number);
        Assert.Equal([StillMissing.Invoice], margin.MissingForReturn);
        Assert.Equal(["agreed with the customer", "agreed with the customer"], margin.Passed.Select(pass => pass.Reason));
        Assert.Equal(NextStep.WriteInvoice, margin.Next);
    }

    [Fact]
    public async Task Two_owners_letting_the_same_thing_pass_at_once_leave_one_entry()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var number = (await book.Book()).Number;
        var passes = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ =>
            Leave(book, leaving => leaving.PassAsync(number, StillMissing.ServiceRecord, "why", Cancel))));
        Assert.Single(passes, pass => pass.IsDone);
        Assert.All(passes.Where(pass => !pass.IsDone), pass => Assert.IsType<PassedAlready>(pass.Failure));
    }

    [Fact]
    public async Task The_camera_goes_home_only_to_a_named_person_with_the_tag_or_a_word_on_how_they_are_known()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var number = (await book.Book()).Number;
        foreach (var item in new[] { StillMissing.AfterServiceChecks, StillMissing.ServiceRecord, StillMissing.Invoice })
            Assert.True((await Leave(book, leaving => leaving.PassAsync(number, item, "test", Cancel))).IsDone);
        Assert.IsType<ReturnWithoutName>((await Leave(book, leaving => leaving.CollectAsync(number, new HandedOver("", true, ""), Cancel))).Failure);
        Assert.IsType<TagNotSeen>((await Leave(book, leaving => leaving.CollectAsync(number, new HandedOver("Ines", false, ""), Cancel))).Failure);
        Assert.IsType<CarrierMissing>((await Leave(book, leaving => leaving.PostAsync(number, new Posting("Ines", "", ""), Cancel))).Failure);
        Assert.True((await Leave(book, leaving => leaving.CollectAsync(number, new HandedOver("Ines", false, "passport"), Cancel))).IsDone);
        Assert.IsType<AlreadyReturned>((await Leave(book, leaving => leaving.CollectAsync(number, new HandedOver("Ines", true, ""), Cancel))).Failure);
        Assert.IsType<AlreadyReturned>((await Leave(book, leaving => leaving.ReadyAsync(number, Cancel))).Failure);
        Assert.Equal("Ines (no claim tag; passport)", await book.Db(db => db.Repairs.Select(row => row.ReturnedTo).SingleAsync(Cancel)));
    }

    [Fact]
    public async Task A_declined_repair_needs_no_checks_after_service_even_once_it_is_called_ready()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var booked = await book.Book();
        var now = book.Clock.GetUtcNow();
        await Add(book, new Estimate { RepairId = booked.RepairId, Revision = 1, CreatedAt = now, SentAt = now, Currency = "EUR", Answer = EstimateAnswer.Declined, AnsweredAt = now, ValidUntil = new DateOnly(2027, 1, 1) });
        Assert.True((await Leave(book, leaving => leaving.ReadyAsync(booked.Number, Cancel))).IsDone);
        Assert.True((await Leave(book, leaving => leaving.PostAsync(booked.Number, new Posting("Ines", "Example Post", "X1"), Cancel))).IsDone);
    }

    [Fact]
    public async Task A_running_clock_an_open_offer_and_an_unpaid_invoice_are_each_named()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var booked = await book.Book();
        var now = book.Clock.GetUtcNow();
        var customer = await book.Db(db => db.Customers.Select(row => row.Id).SingleAsync(Cancel));
        await Add(book,
            new LabourEntry { RepairId = booked.RepairId, WorkerId = book.Owner, WorkDate = new DateOnly(2026, 11, 24), StartedAt = now, CreatedAt = now },
            new CheckResult { RepairId = booked.RepairId, Phase = Phase.AfterService, Name = "Focus", Outcome = CheckOutcome.Fine, CheckedAt = now },
            new Estimate { RepairId = booked.RepairId, Revision = 1, CreatedAt = now, SentAt = now, Currency = "EUR", ValidUntil = new DateOnly(2026, 11, 20) },
            new Invoice { RepairId = booked.RepairId, CustomerId = customer, CreatedAt = now, IssuedAt = now, IssuedBy = book.Owner, IssueDate = DateOnly.FromDateTime(now.UtcDateTime), Number = "I-1", Currency = "EUR", Gross = 90, Net = 90 });
        var margin = await Margin(book, booked.Number);
        Assert.Equal([StillMissing.EstimateAnswer, StillMissing.RunningClock, StillMissing.ServiceRecord, StillMissing.Payment], margin.MissingForReturn);
        Assert.Equal((90m, true, 90m, NextStep.OfferAgain), (margin.Owed, margin.IsInvoiced, margin.UsedSoFar, margin.Next));
        Assert.Contains(margin.Trail, step => step is { Text: "estimate sent, lapsed", Kind: TrailKind.Now });
    }

    [Fact]
    public async Task The_margin_holds_hours_against_the_offer_and_money_against_what_was_approved()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var booked = await book.Book();
        var now = book.Clock.GetUtcNow();
        await book.Db(db => db.Shop.ExecuteUpdateAsync(set => set.SetProperty(shop => shop.LabourRate, 60m), Cancel));
        await Add(book,
            new LabourEntry { RepairId = booked.RepairId, WorkerId = book.Owner, WorkDate = new DateOnly(2026, 11, 24), Minutes = 90, CreatedAt = now },
            new LabourEntry { RepairId = booked.RepairId, WorkerId = book.Owner, WorkDate = new DateOnly(2026, 11, 24), Minutes = 30, Billable = false, CreatedAt = now },
            new Estimate
            {
                RepairId = booked.RepairId,
                Revision = 1,
                CreatedAt = now,
                Currency = "EUR",
                ValidUntil = new DateOnly(2026, 12, 24),
                Lines = [new EstimateLine { Kind = LineKind.Labour, Text = "Labour", LowQuantity = 2, HighQuantity = 3, Unit = "h", UnitPrice = 60 }],
            });
        await book.Db(async db =>
        {
            var offer = await db.Estimates.SingleAsync(Cancel);
            (offer.SentAt, offer.LowGross, offer.HighGross) = (now, 120, 180);
            (offer.Answer, offer.AnsweredAt, offer.AnsweredHow) = (EstimateAnswer.Approved, now, AnswerWay.Email);
            return await db.SaveChangesAsync(Cancel);
        });
        var margin = await Margin(book, booked.Number);
        Assert.Equal((120, 2m, 3m, 180m, 90m), (margin.MinutesWorked, margin.LowHours!.Value, margin.HighHours!.Value, margin.ApprovedUpTo!.Value, margin.UsedSoFar));
        Assert.Contains(margin.Trail, step => step is { Text: "approved, by e-mail", Kind: TrailKind.Now });
    }
}
