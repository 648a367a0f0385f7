using System.Collections.Concurrent;
using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Post;
using RepairShop.Services.Database;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Hosting;

/// <summary>The program is killed without a farewell while several people post: what it has acknowledged is there, once.</summary>
public sealed class KilledProcessTests : IAsyncDisposable
{
    private const int People = 4;
    private const int EnoughBookings = 24;

    private readonly MortalShop mortal = new();
    private readonly ConcurrentBag<string> booked = [];
    private readonly ConcurrentBag<string> sent = [];

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => mortal.DisposeAsync();

    [Fact]
    public async Task What_was_acknowledged_before_a_kill_is_there_after_it_with_numbers_without_a_gap_and_every_letter_once()
    {
        await using (var shop = await mortal.StartAsync(Cancel))
        {
            await MortalShop.SetUpAsync(shop);
            var clients = await Task.WhenAll(Enumerable.Range(0, People).Select(_ => MortalShop.SignInAsync(shop)));
            var work = clients.Select(client => WorkUntilItDiesAsync(client)).ToList();
            while (booked.Count < EnoughBookings)
                await Task.Delay(20, Cancel);
            await shop.KillAsync();
            await Task.WhenAll(work);
        }

        await using var again = await mortal.StartAsync(Cancel);
        await using var db = await mortal.OpenAsync(Cancel);
        var numbers = await db.Repairs.Select(repair => repair.Number).OrderBy(number => number).ToListAsync(Cancel);
        Assert.Equal(Enumerable.Range(1, numbers.Count).Select(number => $"{DateTime.UtcNow.Year}-{number:0000}"), numbers);
        Assert.Empty(booked.Except(numbers));
        var papers = await db.Papers.Select(paper => paper.FileHash).ToListAsync(Cancel);
        Assert.All(papers, hash => Assert.True(File.Exists(mortal.FileOf(hash))));
        await EveryLetterOnceAsync(db);
    }

    private async Task EveryLetterOnceAsync(ShopDb db)
    {
        for (var tries = 0; tries < 300 && await db.Outbox.AnyAsync(mail => mail.State != MailState.Sent, Cancel); tries++)
            await Task.Delay(200, Cancel);
        var letters = await db.Outbox.AsNoTracking().ToListAsync(Cancel);
        Assert.All(letters, letter => Assert.Equal(MailState.Sent, letter.State));
        var about = await db.Outbox.Join(db.Repairs, mail => mail.RepairId, repair => repair.Id, (_, repair) => repair.Number).ToListAsync(Cancel);
        Assert.Equal(about.Count, about.Distinct().Count());
        Assert.NotEmpty(sent);
        Assert.Empty(sent.Except(about));
        // A letter's file is named after its row: one file for each, and nothing half-written beside them.
        var files = Directory.GetFiles(Path.Combine(mortal.Data, "post")).Select(Path.GetFileName).ToList();
        Assert.Equal(letters.Count, files.Count);
        Assert.All(letters, letter => Assert.Single(files, file => file!.EndsWith($"-{letter.Id:N}.eml", StringComparison.Ordinal)));
    }

    /// <summary>Books a camera in and sends its estimate, again and again; only what was answered counts.</summary>
    private async Task WorkUntilItDiesAsync(FormClient client)
    {
        try
        {
            while (true)
            {
                var who = Guid.NewGuid().ToString("N");
                await client.Open("/repairs/new");
                await client.Press("Book in",
                    ("Input.Customer.Name", "Customer " + who), ("Input.Customer.Email", $"{who}@example.com"), ("Input.Camera.Maker", "Orrevale"),
                    ("Input.Camera.BodySerial", who[..10]), ("Input.Facts.Complaint", "Slow speeds hang"));
                if (client.Page.QuerySelector("[name='Input.SomebodyElse']") is not null)
                    await client.Press("Book in", ("Input.SomebodyElse", "true"));
                var number = client.Url.Split('/')[2];
                booked.Add(number);
                await client.Open($"/repairs/{number}/estimate");
                await client.Press("Send estimate");
                if (client.Status == HttpStatusCode.OK && client.Url.EndsWith("/estimate/1", StringComparison.Ordinal))
                    sent.Add(number);
            }
        }
        catch (HttpRequestException)
        {
            client.Dispose(); // the program is gone
        }
    }
}
