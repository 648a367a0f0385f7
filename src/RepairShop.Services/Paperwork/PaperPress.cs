using RepairShop.Documents.Layout;
using RepairShop.Documents.Paperwork;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Services.Database;
using RepairShop.Services.Files;

namespace RepairShop.Services.Paperwork;

/// <summary>What a new paper hangs on.</summary>
internal sealed record PaperOf(Guid? RepairId, Guid IssuedBy, Guid? EstimateId = null, Guid? InvoiceId = null, Guid? CustomerId = null);

/// <summary>A stored paper, and what its fonts could not write.</summary>
public sealed record IssuedPaper(Guid Id, PaperKind Kind, string Number, IReadOnlyList<string> MissingCharacters)
{
    /// <summary>Why no electronic invoice was written beside it, where the shop asks for one when it can be had.</summary>
    public IReadOnlyList<EInvoiceFault> EInvoiceFaults { get; init; } = [];
}

/// <summary>Draws a paper, puts the bytes on disk and the row beside the change that caused it. The file is there before the
/// row can be committed; a transaction that fails leaves at most an unused file.</summary>
internal static class PaperPress
{
    public static async Task<IssuedPaper> PressAsync(
        ShopDb db, FileStore files, PaperKind kind, PaperFacts facts, PaperOf of, CancellationToken cancel,
        IReadOnlyDictionary<string, byte[]>? photos = null, ElectronicInvoice? electronic = null)
    {
        var rendered = PaperRenderer.Render(kind, facts, photos);
        var pdf = electronic?.Cii is { } inside ? HybridPdf.Embed(rendered.Pdf, inside, facts.IssuedAt) : rendered.Pdf;
        var paper = new Paper
        {
            RepairId = of.RepairId,
            CustomerId = of.CustomerId,
            Kind = kind,
            Number = facts.PaperNumber,
            EstimateId = of.EstimateId,
            InvoiceId = of.InvoiceId,
            IssuedAt = facts.IssuedAt,
            IssuedBy = of.IssuedBy,
            Facts = PaperJson.Write(facts),
            FileHash = await files.PutAsync(pdf, cancel),
            Bytes = pdf.Length,
            EInvoiceHash = electronic?.Ubl is { } beside ? await files.PutAsync(beside, cancel) : "",
        };
        db.Papers.Add(paper);
        return new IssuedPaper(paper.Id, kind, paper.Number, rendered.MissingCharacters);
    }
}
