namespace RepairShop.Domain.Paperwork;

/// <summary>A paper as it was issued: the facts, and the hash of the very bytes. Append-only.</summary>
public sealed class Paper
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    /// <summary>Null for a paper about a customer.</summary>
    public Guid? RepairId { get; set; }

    /// <summary>Of a paper that is about no one repair.</summary>
    public Guid? CustomerId { get; set; }

    public PaperKind Kind { get; set; }

    public string Number { get; set; } = "";

    public Guid? EstimateId { get; set; }

    public Guid? InvoiceId { get; set; }

    public DateTimeOffset IssuedAt { get; set; }

    public Guid IssuedBy { get; set; }

    /// <summary>The facts it was drawn from, as JSON.</summary>
    public string Facts { get; set; } = "{}";

    /// <summary>SHA-256, lower-case hex, of the PDF in the file store.</summary>
    public string FileHash { get; set; } = "";

    public int Bytes { get; set; }

    /// <summary>SHA-256, lower-case hex, of the electronic invoice stored beside it; empty where there is none.</summary>
    public string EInvoiceHash { get; set; } = "";
}
