using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Post;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>The wording of the shop's letters, with a preview on made-up values.</summary>
public sealed class MailTextService(ShopDb db, ShopFace face)
{
    public Task<List<MailTextRow>> List(CancellationToken ct = default) =>
        db.MailTexts.AsNoTracking()
            .Select(text => new MailTextRow(text.Kind, text.Subject, text.Body, text.Version))
            .ToListAsync(ct);

    public Task<MailTextRow?> Find(MailKind kind, CancellationToken ct = default) =>
        db.MailTexts.AsNoTracking().Where(text => text.Kind == kind)
            .Select(text => new MailTextRow(text.Kind, text.Subject, text.Body, text.Version))
            .SingleOrDefaultAsync(ct);

    public async Task<Result> Save(MailTextRow typed, CancellationToken ct = default)
    {
        if (Refusal(typed) is { } unknown)
            return unknown;
        if (await db.MailTexts.SingleOrDefaultAsync(text => text.Kind == typed.Kind, ct) is not { } stored)
            return new TextUnknown();
        stored.Subject = typed.Subject.Trim();
        stored.Body = typed.Body.ReplaceLineEndings("\n").Trim();
        db.Entry(stored).Property(text => text.Version).OriginalValue = typed.Version;
        return await db.SaveAsync(ct);
    }

    /// <summary>What a customer would read, with invented values.</summary>
    public Result<MailPreview> Preview(MailTextRow typed)
    {
        if (Refusal(typed) is { } unknown)
            return unknown;
        var sample = Sample(face);
        return new MailPreview(MailTemplate.Fill(typed.Subject, sample), MailTemplate.Fill(typed.Body, sample));
    }

    /// <summary>An invented customer's values for every placeholder there is.</summary>
    internal static Dictionary<string, string> Sample(ShopFace face) => new()
    {
        ["customer"] = "Ines Halloway",
        ["camera"] = "Orrevale Pelter IIb",
        ["number"] = $"{face.Today.Year}-0042",
        ["shop"] = face.Name,
        ["low"] = face.Money(180),
        ["high"] = face.Money(260),
        ["valid"] = face.Date(face.Today.AddDays(30)),
        ["answer"] = "Answer here: https://book.example.com/answer/…",
        ["paper"] = $"I-{face.Today.Year}-0042",
        ["title"] = "Friendly note",
        ["total"] = face.Money(238),
        ["from"] = face.Date(face.Today.AddDays(-90)),
        ["until"] = face.Date(face.Today),
        ["due"] = face.Date(face.Today.AddDays(14)),
    };

    /// <summary>A placeholder this kind of letter can't fill; null when all are known.</summary>
    internal static PlaceholderUnknown? FirstUnknown(MailKind kind, string field, string text) => MailTemplate.FirstUnknown(kind, text) is { } unknown
        ? new PlaceholderUnknown(field, unknown, string.Join(", ", MailTemplate.Known(kind).Select(name => $"{{{name}}}")))
        : null;

    private static PlaceholderUnknown? Refusal(MailTextRow typed) =>
        FirstUnknown(typed.Kind, nameof(typed.Subject), typed.Subject) ?? FirstUnknown(typed.Kind, nameof(typed.Body), typed.Body);
}

public sealed record MailTextRow(MailKind Kind, string Subject, string Body, uint Version);

public sealed record MailPreview(string Subject, string Body);
