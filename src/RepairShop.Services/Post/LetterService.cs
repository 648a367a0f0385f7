using Microsoft.EntityFrameworkCore;
using MimeKit;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Post;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Post;

/// <summary>Writes letters into the outbox from the shop's own texts. Nothing leaves here: the row is saved with the change
/// that caused it, and the worker sends it.</summary>
public sealed class LetterService(ShopDb db, TimeProvider clock)
{
    /// <summary>Adds a letter about a repair to the context; the caller saves it.</summary>
    /// <param name="repairNumber"></param>
    /// <param name="kind"></param>
    /// <param name="values">What the placeholders of this kind stand for, beyond customer, camera, number and shop.</param>
    /// <param name="paperIds">Papers to attach.</param>
    /// <param name="cancel"></param>
    public async Task<Result> WriteAsync(
        string repairNumber, MailKind kind, IReadOnlyDictionary<string, string> values, Guid[] paperIds, CancellationToken cancel) =>
        await RepairFile.ReadAsync(db, repairNumber, cancel) is { } file
            ? await WriteAsync(file, kind, values, paperIds, cancel)
            : new RepairNotFound(repairNumber);

    internal async Task<Result> WriteAsync(
        RepairFile file, MailKind kind, IReadOnlyDictionary<string, string> values, Guid[] paperIds, CancellationToken cancel)
    {
        var all = new Dictionary<string, string>(values)
        {
            ["camera"] = file.CameraName,
            ["number"] = file.Repair.Number,
        };
        return await WriteAsync(file.Customer, file.Shop, file.Repair.Id, kind, all, paperIds, cancel);
    }

    /// <summary>Adds a letter to a customer; the caller saves it.</summary>
    internal async Task<Result> WriteAsync(
        Customer customer, ShopSettings shop, Guid? repairId, MailKind kind, IReadOnlyDictionary<string, string> values, Guid[] paperIds, CancellationToken cancel)
    {
        if (customer.Email.Length == 0)
            return new NoMailAddress(customer.Name);
        if (!IsUsable(customer.Email))
            return new MailAddressUnusable(customer.Email);
        var text = await db.MailTexts.AsNoTracking().SingleAsync(row => row.Kind == kind, cancel);
        var all = new Dictionary<string, string>(values)
        {
            ["customer"] = customer.Name,
            ["shop"] = shop.Name,
        };
        var now = clock.GetUtcNow();
        db.Outbox.Add(new OutboxMail
        {
            RepairId = repairId,
            Kind = kind,
            ToName = TypedText.Cut(OutboxRules.OneLine(customer.Name), 200),
            ToAddress = customer.Email,
            Subject = TypedText.Cut(OutboxRules.OneLine(MailTextFill.Fill(text.Subject, all).Text), 300),
            Body = MailTextFill.Fill(text.Body, all).Text,
            PaperIds = paperIds,
            State = MailState.Waiting,
            CreatedAt = now,
            NextTryAt = now,
        });
        return Result.Done;
    }

    internal static bool IsUsable(string address) =>
        !address.Any(char.IsControl)
        && MailboxAddress.TryParse(address, out var mailbox)
        && mailbox.Address == address
        && address.Contains('@', StringComparison.Ordinal);
}
