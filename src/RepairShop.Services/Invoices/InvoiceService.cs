using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Estimates;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>Drafts of invoices: begun from offer, work or strip-down charge, then changed at will until issued.</summary>
public sealed class InvoiceService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <summary>Begins the one draft a repair may have.</summary>
    public async Task<Result<Guid>> BeginAsync(string number, InvoiceBasis basis, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        if (await db.Invoices.AnyAsync(row => row.RepairId == file.Repair.Id && row.IssuedAt == null, cancel))
            return new InvoiceDraftWaiting();
        var sources = await InvoiceSources.LoadAsync(db, file, cancel);
        var lines = sources.LinesOf(basis);
        if (!lines.IsDone)
            return lines.Failure;
        var now = clock.GetUtcNow();
        var (currency, includesTax, registered) = sources.TermsOf(basis);
        var invoice = new Invoice
        {
            RepairId = file.Repair.Id,
            CustomerId = file.Customer.Id,
            Kind = InvoiceKind.Invoice,
            Basis = basis,
            CreatedAt = now,
            CreatedBy = person.RequiredId,
            SupplyDate = file.Shop.Today(file.Repair.ReturnedAt ?? file.Repair.ReadyAt ?? now),
            Currency = currency,
            PricesIncludeTax = includesTax,
            TaxRegistered = registered,
            Lines = lines.Value,
        };
        Sum(invoice);
        db.Invoices.Add(invoice);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return invoice.Id;
    }

    public async Task<Result> SaveDraftAsync(Guid id, InvoiceDraft typed, uint version, CancellationToken cancel)
    {
        if (await db.Invoices.Include(row => row.Lines).SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } invoice)
            return new NoSuchInvoice();
        if (InvoiceRules.MayChange(invoice) is { IsDone: false } refused)
            return refused;
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var taxes = await DraftLines.TaxChoicesAsync(
            db, shop, invoice.Lines.Select(line => (line.TaxName, line.TaxPercent)), cancel);
        if (!invoice.TaxRegistered)
            taxes = [];
        if (DraftLines.Check(typed.Lines, taxes) is { IsDone: false } unfit)
            return unfit;
        if (invoice.Version != version)
            return new ChangedMeanwhile(Differences(AsForm(invoice), typed));
        Fill(invoice, typed, taxes);
        return await db.SaveAsync(cancel);
    }

    public async Task<Result> DiscardDraftAsync(Guid id, CancellationToken cancel)
    {
        if (await db.Invoices.Include(row => row.Lines).SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } invoice)
            return Result.Done; // thrown away already, perhaps by the first of two clicks
        if (InvoiceRules.MayChange(invoice) is { IsDone: false } refused)
            return refused;
        db.InvoiceLines.RemoveRange(invoice.Lines);
        db.Invoices.Remove(invoice);
        return await db.SaveAsync(cancel);
    }

    internal static Totals TotalsOf(Invoice invoice) => Totals.Of(
        Priced(invoice.Lines.OrderBy(line => line.Position)), invoice.TaxRegistered, invoice.PricesIncludeTax, Amount.Digits(invoice.Currency));

    internal static IReadOnlyList<PricedLine> Priced(IEnumerable<InvoiceLine> lines) =>
        [.. lines.Select(line => new PricedLine(line.Quantity, line.UnitPrice, line.TaxName, line.TaxPercent))];

    internal static InvoiceDraft AsForm(Invoice invoice) => new()
    {
        Note = invoice.Note,
        SupplyDate = invoice.SupplyDate ?? default,
        Lines = [.. invoice.Lines.OrderBy(line => line.Position).Select(line => new DraftLine(
            line.Kind, line.Text, line.Quantity, line.Quantity, line.Unit, line.UnitPrice, TaxChoice.KeyOf(line.TaxName, line.TaxPercent)))],
    };

    internal static Totals Sum(Invoice invoice)
    {
        var totals = TotalsOf(invoice);
        (invoice.Net, invoice.Tax, invoice.Gross) = (totals.Net, totals.Tax, totals.Gross);
        return totals;
    }

    private void Fill(Invoice invoice, InvoiceDraft typed, IReadOnlyList<TaxChoice> taxes)
    {
        (invoice.Note, invoice.SupplyDate) = (typed.Note.Trim(), typed.SupplyDate);
        var kept = invoice.Lines.OrderBy(line => line.Position).ToList();
        for (var index = 0; index < typed.Lines.Count; index++)
        {
            var line = index < kept.Count ? kept[index] : new InvoiceLine { InvoiceId = invoice.Id };
            if (index >= kept.Count)
                db.InvoiceLines.Add(line);
            var from = typed.Lines[index];
            (line.Position, line.Kind, line.Text, line.Unit) = (index + 1, from.Kind, from.Text.Trim(), from.Unit.Trim());
            (line.Quantity, line.UnitPrice) = (from.HighQuantity, from.UnitPrice);
            (line.TaxName, line.TaxPercent) = DraftLines.TaxOf(from, taxes);
        }
        foreach (var gone in kept.Skip(typed.Lines.Count))
        {
            invoice.Lines.Remove(gone);
            db.InvoiceLines.Remove(gone);
        }
        Sum(invoice);
        // The draft's row is written even when only a line changed: its version guards them all.
        db.Entry(invoice).Property(row => row.Note).IsModified = true;
    }

    private static List<FieldDifference> Differences(InvoiceDraft stored, InvoiceDraft typed)
    {
        var pairs = new List<FieldDifference>
        {
            new(nameof(stored.Note), stored.Note, typed.Note.Trim()),
            new(nameof(stored.SupplyDate), $"{stored.SupplyDate:d}", $"{typed.SupplyDate:d}"),
        };
        pairs.AddRange(EstimateDifferences.Lines(stored.Lines, typed.Lines));
        return [.. pairs.Where(pair => pair.Stored != pair.Typed)];
    }
}
