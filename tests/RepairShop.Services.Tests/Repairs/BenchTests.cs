using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Services.Repairs;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Repairs;

public sealed class BenchTests(PostgresServer server)
{
    private static CancellationToken Cancel => CounterBook.Cancel;

    [Fact]
    public async Task Each_camera_in_the_house_stands_under_what_it_waits_for()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var now = book.Clock.GetUtcNow();
        var today = new DateOnly(2026, 11, 24);
        var (idle, bench, waiting, ready, unpaid) = (await book.Book(), await book.Book(), await book.Book(), await book.Book(), await book.Book());
        await book.Db(async db =>
        {
            var all = await db.Repairs.ToDictionaryAsync(row => row.Id, Cancel);
            all[bench.RepairId].BenchAt = now;
            all[bench.RepairId].PromisedFor = today.AddDays(-1);
            all[ready.RepairId].ReadyAt = now;
            all[ready.RepairId].PromisedFor = today.AddDays(-1);
            all[unpaid.RepairId].ReturnedAt = now;
            db.Add(new Estimate { RepairId = waiting.RepairId, Revision = 1, CreatedAt = now, SentAt = now, Currency = "EUR", ValidUntil = today.AddDays(-1) });
            db.Add(new Invoice { RepairId = unpaid.RepairId, CustomerId = all[unpaid.RepairId].CustomerId, CreatedAt = now, IssuedAt = now, IssuedBy = book.Owner, IssueDate = DateOnly.FromDateTime(now.UtcDateTime), Number = "I-1", Currency = "EUR", Gross = 90, Net = 90 });
            return await db.SaveChangesAsync(Cancel);
        });
        var view = await book.Do<BenchService, BenchView>(lists => lists.GetAsync(Cancel));
        Assert.Equal(bench.Number, Assert.Single(view.OnBench).Number);
        Assert.Equal(idle.Number, Assert.Single(view.NotStarted).Number);
        Assert.True(Assert.Single(view.Waiting).IsLapsed(today));
        Assert.Equal(ready.Number, Assert.Single(view.GoingHome).Number);
        Assert.Equal((unpaid.Number, 90m), (Assert.Single(view.Unpaid).Number, view.Unpaid[0].Owed));
        Assert.Equal(1, view.Late);
    }
}
