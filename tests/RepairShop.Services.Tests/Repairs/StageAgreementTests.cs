using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.ShutterTests;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Repairs;

public sealed class StageAgreementTests(PostgresServer server)
{
    private enum Offer { None, Draft, Sent, Approved, Declined, ApprovedThenSentAgain, DeclinedThenApproved }

    private enum After { Nothing, CheckNotTested, Check, Reading, StruckOutReading }

    [Fact]
    public async Task The_program_and_the_database_agree_on_the_stage_for_every_combination_of_facts()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var now = book.Clock.GetUtcNow();
        var customer = new Customer { Name = "Ines Marchetti", CreatedAt = now };
        var camera = new Camera { OwnerId = customer.Id, Maker = "Orrevale", CreatedAt = now };
        var expected = new Dictionary<Guid, (string Case, Stage Stage)>();
        bool[] either = [false, true];
        await book.Db(async db =>
        {
            db.AddRange(customer, camera);
            foreach (var offer in Enum.GetValues<Offer>())
                foreach (var after in Enum.GetValues<After>())
                    foreach (var limit in either)
                        foreach (var bench in either)
                            foreach (var ready in either)
                                foreach (var returned in either)
                                {
                                    var repair = new Repair
                                    {
                                        Number = $"N{expected.Count}",
                                        CustomerId = customer.Id,
                                        CameraId = camera.Id,
                                        BookedAt = now,
                                        PreApprovedLimit = limit ? 100 : null,
                                        BenchAt = bench ? now : null,
                                        ReadyAt = ready ? now : null,
                                        ReturnedAt = returned ? now : null,
                                    };
                                    db.Add(repair);
                                    db.AddRange(Offers(repair.Id, offer, now));
                                    db.AddRange(Afters(repair.Id, after, now));
                                    var facts = new StageFacts(
                                        limit,
                                        offer is not (Offer.None or Offer.Draft),
                                        offer switch
                                        {
                                            Offer.Approved or Offer.DeclinedThenApproved => EstimateAnswer.Approved,
                                            Offer.Declined => EstimateAnswer.Declined,
                                            _ => null,
                                        },
                                        bench,
                                        after is After.Check or After.Reading,
                                        ready,
                                        returned);
                                    expected[repair.Id] = ($"{offer} {after} limit={limit} bench={bench} ready={ready} returned={returned}", facts.Stage);
                                }
            return await db.SaveChangesAsync(CounterBook.Cancel);
        });
        var stages = await book.Db(db => db.RepairStages.ToDictionaryAsync(row => row.RepairId, row => row.Stage, CounterBook.Cancel));
        Assert.Equal(7 * 5 * 16, stages.Count);
        Assert.All(expected, pair => Assert.Equal(pair.Value, (pair.Value.Case, stages[pair.Key])));
        Assert.Equal(Enum.GetValues<Stage>(), stages.Values.Distinct().Order());
    }

    private static IEnumerable<Estimate> Offers(Guid repairId, Offer offer, DateTimeOffset now)
    {
        Estimate Revision(int number, bool sent, EstimateAnswer? answer) => new()
        {
            RepairId = repairId,
            Revision = number,
            CreatedAt = now,
            Currency = "EUR",
            SentAt = sent ? now : null,
            Answer = answer,
            AnsweredAt = answer is null ? null : now,
        };
        return offer switch
        {
            Offer.Draft => [Revision(1, false, null)],
            Offer.Sent => [Revision(1, true, null)],
            Offer.Approved => [Revision(1, true, EstimateAnswer.Approved)],
            Offer.Declined => [Revision(1, true, EstimateAnswer.Declined)],
            Offer.ApprovedThenSentAgain => [Revision(1, true, EstimateAnswer.Approved), Revision(2, true, null)],
            Offer.DeclinedThenApproved => [Revision(1, true, EstimateAnswer.Declined), Revision(2, true, EstimateAnswer.Approved), Revision(3, false, null)],
            _ => [],
        };
    }

    private static IEnumerable<object> Afters(Guid repairId, After after, DateTimeOffset now)
    {
        if (after is After.Check or After.CheckNotTested)
            yield return new CheckResult
            {
                RepairId = repairId,
                Phase = Phase.AfterService,
                Name = "Focus",
                Outcome = after == After.Check ? CheckOutcome.Fine : CheckOutcome.NotTested,
                CheckedAt = now,
            };
        if (after is After.Reading or After.StruckOutReading)
            yield return new ShutterTest
            {
                RepairId = repairId,
                Phase = Phase.AfterService,
                MeasuredAt = now,
                Readings = [new Reading { MarkedSpeed = "1/125", Seconds = 0.008, ReadAt = now, StruckOutReason = after == After.StruckOutReading ? "slipped" : null }],
            };
    }
}
