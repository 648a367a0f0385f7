using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Post;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Post;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Estimates;

/// <summary>Sends a draft: totals frozen, paper stored, link made, letter written, all in one transaction.</summary>
public sealed class EstimateSendService(ShopDb db, FileStore files, CurrentPerson person, TimeProvider clock, LetterService letters)
{
    /// <param name="number">Of the repair.</param>
    /// <param name="byMail">Write a letter too; otherwise the paper is printed and handed over or posted.</param>
    /// <param name="cancel"></param>
    public async Task<Result<IssuedPaper>> SendAsync(string number, bool byMail, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        if (file.Repair.ReturnedAt is not null)
            return new RepairHasGoneHome(number);
        var now = clock.GetUtcNow();
        var latest = await db.Estimates.Include(row => row.Lines)
            .Where(row => row.RepairId == file.Repair.Id).OrderByDescending(row => row.Revision).Take(2).ToListAsync(cancel);
        if (latest is not [var estimate, ..])
            return new EstimateHasNoLines();
        if (EstimateRules.MaySend(estimate, latest.ElementAtOrDefault(1), file.Shop.Today(now)) is { IsDone: false } refused)
            return refused.Failure;
        var totals = EstimateTotals.Of(estimate);
        (estimate.SentAt, estimate.SentBy) = (now, person.RequiredId);
        (estimate.LowGross, estimate.HighGross) = (totals.Low.Gross, totals.High.Gross);
        await RevokeLinksAsync(db, file.Repair.Id, now, cancel);
        var url = AddLink(file, estimate, now);
        var facts = EstimateFactsBuilder.Build(file, estimate, totals, url, person.Name, now);
        var paper = await PaperPress.PressAsync(
            db, files, PaperKind.Estimate, facts, new PaperOf(file.Repair.Id, person.RequiredId, EstimateId: estimate.Id), cancel);
        if (byMail && await letters.WriteAsync(file, MailKind.Estimate, Values(file, estimate, paper.Number, url), [paper.Id], cancel) is { IsDone: false } unwritten)
            return unwritten.Failure;
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return paper;
    }

    /// <summary>A link to an estimate that was answered, replaced or withdrawn opens nothing.</summary>
    internal static async Task RevokeLinksAsync(ShopDb db, Guid repairId, DateTimeOffset now, CancellationToken cancel)
    {
        var live = await db.AnswerLinks
            .Where(link => link.RevokedAt == null && db.Estimates.Any(row => row.Id == link.EstimateId && row.RepairId == repairId))
            .ToListAsync(cancel);
        foreach (var link in live)
            link.RevokedAt = now;
    }

    private string? AddLink(RepairFile file, Estimate estimate, DateTimeOffset now)
    {
        if (file.Shop.PublicAddress.Length == 0)
            return null;
        var token = AnswerToken.New();
        db.AnswerLinks.Add(new AnswerLink
        {
            EstimateId = estimate.Id,
            TokenHash = AnswerToken.Hash(token),
            CreatedAt = now,
            ExpiresAt = file.Shop.EndOf(estimate.ValidUntil),
        });
        return $"{file.Shop.PublicAddress.TrimEnd('/')}/answer/{token}";
    }

    private static Dictionary<string, string> Values(RepairFile file, Estimate estimate, string paper, string? url) => new()
    {
        ["paper"] = paper,
        ["low"] = file.Shop.Money(estimate.LowGross!.Value, estimate.Currency),
        ["high"] = file.Shop.Money(estimate.HighGross!.Value, estimate.Currency),
        ["valid"] = file.Shop.Day(estimate.ValidUntil),
        ["answer"] = url is null
            ? "Please tell us by e-mail, phone or letter whether you approve it."
            : $"You can read and answer it here:\n{url}",
    };
}
