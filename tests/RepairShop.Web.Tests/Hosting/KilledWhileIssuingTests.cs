using System.Collections.Concurrent;
using System.Net;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Database;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Hosting;

/// <summary>Several people issue a thousand invoices while the program, and then its database, are killed under their hands.</summary>
public sealed class KilledWhileIssuingTests : IAsyncDisposable
{
    private const int People = 4;
    private const int Invoices = 1000;

    private readonly MortalShop mortal = new();
    private readonly ConcurrentQueue<string> drafts = [];
    private readonly ConcurrentBag<string> acknowledged = [];

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => mortal.DisposeAsync();

    [Fact]
    public async Task A_thousand_invoices_issued_through_two_kills_have_no_gap_no_double_and_a_journal_that_balances()
    {
        await using (var shop = await mortal.StartAsync(Cancel))
        {
            await MortalShop.SetUpAsync(shop);
            await DraftAsync();
            await IssueUntilAsync(shop, Invoices * 3 / 10, shop.KillAsync);
        }

        await using (var shop = await mortal.StartAsync(Cancel))
        {
            await IssueUntilAsync(shop, Invoices * 6 / 10, async () =>
            {
                mortal.KillDatabase();
                await shop.KillAsync();
            });
        }

        await using var last = await mortal.StartAsync(Cancel);
        await IssueUntilAsync(last, int.MaxValue, () => Task.CompletedTask);
        await using var db = await mortal.OpenAsync(Cancel);
        await NumbersWithoutGapAsync(db);
        await JournalBalancesAsync(db);
        await EveryPaperOnceAsync(db);
    }

    /// <summary>True when the program said that it is issued: now, or a moment before it was killed.</summary>
    private static async Task<bool> IssueAsync(FormClient client, string repair)
    {
        await client.Open($"/repairs/{repair}/invoice");
        if (client.Page.QuerySelector("button[value='issue']") is not null)
            await client.Press("Issue invoice");
        return client.Status == HttpStatusCode.OK && client.Text.Contains("Still owed", StringComparison.Ordinal);
    }

    private async Task NumbersWithoutGapAsync(ShopDb db)
    {
        Assert.False(await db.Invoices.AnyAsync(invoice => invoice.IssuedAt == null, Cancel));
        var numbers = await db.Invoices.Select(invoice => invoice.Number!).ToListAsync(Cancel);
        var expected = Enumerable.Range(1, Invoices).Select(number => $"I-{DateTime.UtcNow.Year}-{number:0000}");
        Assert.Equal(expected, numbers.OrderBy(number => number.Length).ThenBy(number => number, StringComparer.Ordinal));
        var issued = await db.Invoices.Join(db.Repairs, invoice => invoice.RepairId, repair => repair.Id, (_, repair) => repair.Number).ToListAsync(Cancel);
        Assert.Equal(Invoices, issued.Distinct().Count());
        Assert.Empty(acknowledged.Except(issued));
    }

    /// <summary>One entry an invoice, each balanced, and all of them together worth what all invoices are.</summary>
    private static async Task JournalBalancesAsync(ShopDb db)
    {
        var entries = await db.JournalEntries.AsNoTracking().Include(entry => entry.Lines).ToListAsync(Cancel);
        Assert.Equal(Invoices, entries.Select(entry => entry.InvoiceId).Distinct().Count());
        Assert.Equal(Invoices, entries.Count);
        Assert.All(entries, entry => Assert.Equal((0m, entry.LineCount), (entry.Lines.Sum(line => line.Amount), entry.Lines.Count)));
        Assert.Equal(
            await db.Invoices.SumAsync(invoice => invoice.Gross, Cancel),
            entries.SelectMany(entry => entry.Lines).Where(line => line.Account == Domain.Ledger.LedgerAccount.Receivables).Sum(line => line.Amount));
    }

    private async Task EveryPaperOnceAsync(ShopDb db)
    {
        var papers = await db.Papers.Where(paper => paper.Kind == PaperKind.Invoice).Select(paper => new { paper.InvoiceId, paper.FileHash }).ToListAsync(Cancel);
        Assert.Equal((Invoices, Invoices), (papers.Count, papers.Select(paper => paper.InvoiceId).Distinct().Count()));
        foreach (var paper in papers)
            Assert.Equal(paper.FileHash, Convert.ToHexStringLower(SHA256.HashData(await File.ReadAllBytesAsync(mortal.FileOf(paper.FileHash), Cancel))));
    }

    /// <summary>Works the queue off until it is empty, or until so many have been acknowledged and the end comes.</summary>
    private async Task IssueUntilAsync(ShopProcess shop, int enough, Func<Task> end)
    {
        var clients = await Task.WhenAll(Enumerable.Range(0, People).Select(_ => MortalShop.SignInAsync(shop)));
        var work = Task.WhenAll(clients.Select(WorkAsync));
        while (acknowledged.Count < enough && !work.IsCompleted)
            await Task.Delay(20, Cancel);
        Assert.Equal(enough < Invoices, !drafts.IsEmpty); // killed in the middle of it
        await end();
        await work;
    }

    private async Task WorkAsync(FormClient client)
    {
        while (drafts.TryDequeue(out var repair))
        {
            try
            {
                if (await IssueAsync(client, repair))
                {
                    acknowledged.Add(repair);
                    continue;
                }
                drafts.Enqueue(repair); // the database is gone
            }
            catch (HttpRequestException)
            {
                drafts.Enqueue(repair); // the program is gone
            }
            client.Dispose();
            return;
        }
    }

    private async Task DraftAsync()
    {
        await using var db = await mortal.OpenAsync(Cancel);
        var owner = await db.Users.Select(user => user.Id).SingleAsync(Cancel);
        var currency = await db.Shop.Select(shop => shop.Currency).SingleAsync(Cancel);
        var now = DateTimeOffset.UtcNow;
        var customer = new Customer { Name = "Ola Example", Email = "ola@example.com", CreatedAt = now };
        var camera = new Camera { OwnerId = customer.Id, Maker = "Orrevale", Model = "Model 3", BodySerial = "41234", CreatedAt = now };
        db.AddRange(customer, camera);
        for (var number = 1; number <= Invoices; number++)
        {
            var repair = new Repair
            {
                Number = $"K-{number:0000}",
                CustomerId = customer.Id,
                CameraId = camera.Id,
                BookedAt = now,
                BookedBy = owner,
                Complaint = "Slow speeds hang",
                PreApprovedLimit = 1000,
            };
            var invoice = new Invoice { RepairId = repair.Id, CustomerId = customer.Id, CreatedAt = now, CreatedBy = owner, Basis = InvoiceBasis.AsWorked, Currency = currency };
            invoice.Lines.Add(new InvoiceLine { Position = 1, Kind = LineKind.Labour, Text = "Clean and adjust shutter", Quantity = 2, Unit = "h", UnitPrice = 60 + (number % 7) });
            invoice.Lines.Add(new InvoiceLine { Position = 2, Kind = LineKind.Part, Text = "Cell spring", Quantity = 1, Unit = "pc", UnitPrice = 4.35m });
            db.AddRange(repair, invoice);
            drafts.Enqueue(repair.Number);
        }
        await db.SaveChangesAsync(Cancel);
    }
}
