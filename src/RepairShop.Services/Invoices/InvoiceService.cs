using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Estimates;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>Drafts of invoices: begun from offer, work or strip-down charge, then changed at will until issued.</summary>
public sealed class InvoiceService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <summary>Begins the one draft a repair may have. Deposits invoiced before are taken off it.</summary>
    public Task<Result<Guid>> BeginAsync(string number, InvoiceBasis basis, CancellationToken cancel) =>
        BeginAsync(number, basis, (sources, _) => sources.LinesOf(basis), cancel);

    /// <summary>Begins an invoice that asks for money before the work is done.</summary>
    /// <param name="number">Of the repair.</param>
    /// <param name="amount">With or without tax as prices are written.</param>
    /// <param name="cancel"></param>
    public Task<Result<Guid>> BeginDepositAsync(string number, decimal amount, CancellationToken cancel) => BeginAsync(number, InvoiceBasis.Deposit, (sources, file) =>
    {
        if (amount <= 0)
            return new DepositAmountMissing();
        var line = new InvoiceLine { Position = 1, Kind = LineKind.Other, Text = $"Deposit for the repair of your {file.CameraName}", Quantity = 1, Unit = "pcs", UnitPrice = amount };
        TaxTermsLines.Tax([line], sources.Terms, sources.Rates, keepsItsRates: false, sources.Terms.PricesIncludeTax);
        return new List<InvoiceLine> { line };
    }, cancel);

    public Task<Result> SaveDraftAsync(Guid id, InvoiceDraft typed, uint version, CancellationToken cancel) =>
        HeldAsync(id, () => SaveHeldAsync(id, typed, version, cancel), cancel);

    public Task<Result> DiscardDraftAsync(Guid id, CancellationToken cancel) => HeldAsync(id, () => DiscardHeldAsync(id, cancel), cancel);

    /// <summary>The draft is held before it is read: else two who save it, or one who saves and one who issues it, wait for each other for ever.</summary>
    private async Task<Result> HeldAsync(Guid id, Func<Task<Result>> work, CancellationToken cancel)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        await InvoiceLock.TakeAsync(db, id, cancel);
        var done = await work();
        if (done.IsDone)
            await transaction.CommitAsync(cancel);
        return done;
    }

    private async Task<Result> SaveHeldAsync(Guid id, InvoiceDraft typed, uint version, CancellationToken cancel)
    {
        if (await db.Invoices.Include(row => row.Lines).Include(row => row.Changes).SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } invoice)
            return new NoSuchInvoice();
        if (InvoiceRules.MayChange(invoice) is { IsDone: false } refused)
            return refused;
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        if (typed.TaxProfileId is { } chosen && chosen != invoice.TaxProfileId)
            return await ChangeProfileAsync(invoice, shop, chosen, typed, version, cancel);
        var terms = DraftTerms.Of(invoice, await TaxTermsReader.OfAsync(db, shop, invoice.TaxProfileId, cancel));
        var taxes = await DraftLines.TaxChoicesAsync(db, terms, typed.SupplyDate, DraftTerms.InUse(invoice), cancel);
        if (DraftLines.Check(typed.Lines, taxes) is { IsDone: false } unfit)
            return unfit;
        if (DraftTerms.Check(typed.Changes) is { IsDone: false } unreadable)
            return unreadable;
        if (invoice.Version != version)
            return new ChangedMeanwhile(Differences(AsForm(invoice), typed));
        Fill(invoice, typed, taxes, shop);
        return await KeepAsync(invoice, cancel);
    }

    private async Task<Result> DiscardHeldAsync(Guid id, CancellationToken cancel)
    {
        if (await db.Invoices.Include(row => row.Lines).Include(row => row.Changes).SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } invoice)
            return Result.Done; // thrown away already, perhaps by the first of two clicks
        if (InvoiceRules.MayChange(invoice) is { IsDone: false } refused)
            return refused;
        db.InvoiceLines.RemoveRange(invoice.Lines);
        db.InvoiceChanges.RemoveRange(invoice.Changes);
        db.Invoices.Remove(invoice);
        return await db.SaveAsync(cancel);
    }

    internal static InvoiceDraft AsForm(Invoice invoice) => new()
    {
        Note = invoice.Note,
        SupplyDate = invoice.SupplyDate ?? default,
        TaxProfileId = invoice.TaxProfileId,
        RoundsToCoin = invoice.CashStep > 0,
        Lines = [.. invoice.Lines.Where(line => line.DepositId is null).OrderBy(line => line.Position).Select(line => new DraftLine(
            line.Kind, line.Text, line.Quantity, line.Quantity, line.Unit, line.UnitPrice, TaxChoice.KeyOf(line.TaxName, line.TaxPercent))
        { Change = new PriceChange(line.ChangePercent, line.ChangeAmount) })],
        Changes = [.. invoice.Changes.OrderBy(change => change.Position).Select(change => change.Priced())],
    };

    internal static Totals Sum(Invoice invoice)
    {
        var totals = invoice.Totals();
        (invoice.Net, invoice.Tax, invoice.Gross, invoice.CashRounding) = (totals.Net, totals.Tax, totals.Gross, totals.CashRounding);
        return totals;
    }

    /// <summary>Takes off what deposit invoices of the repair charged and nothing else took off yet.</summary>
    internal static async Task TakeOffDepositsAsync(ShopDb db, Invoice invoice, CancellationToken cancel)
    {
        if (invoice.Basis == InvoiceBasis.Deposit)
            return;
        var issued = await db.Invoices.AsNoTracking().Include(row => row.Lines).Include(row => row.Changes).Include(row => row.Taxes)
            .Where(row => row.RepairId == invoice.RepairId && row.IssuedAt != null && row.Id != invoice.Id).ToListAsync(cancel);
        var wanted = Deposits.LinesFor(issued, invoice.PricesIncludeTax);
        var kept = invoice.Lines.Where(line => line.DepositId is not null).OrderBy(line => line.Position).ToList();
        foreach (var gone in kept.Skip(wanted.Count))
        {
            invoice.Lines.Remove(gone);
            db.InvoiceLines.Remove(gone);
        }
        var position = invoice.Lines.Count(line => line.DepositId is null);
        for (var index = 0; index < wanted.Count; index++)
        {
            var line = index < kept.Count ? kept[index] : new InvoiceLine { InvoiceId = invoice.Id };
            if (index >= kept.Count)
                db.InvoiceLines.Add(line);
            var from = wanted[index];
            (line.Position, line.Kind, line.Text, line.Quantity, line.Unit, line.UnitPrice) = (++position, from.Kind, from.Text, from.Quantity, from.Unit, from.UnitPrice);
            (line.TaxName, line.TaxPercent, line.TaxCategory, line.DepositId) = (from.TaxName, from.TaxPercent, from.TaxCategory, from.DepositId);
        }
    }

    private async Task<Result> KeepAsync(Invoice invoice, CancellationToken cancel)
    {
        await TakeOffDepositsAsync(db, invoice, cancel);
        return InvoiceRules.MayKeep(Sum(invoice), invoice.Currency) is { IsDone: false } refused ? refused : await db.SaveAsync(cancel);
    }

    private async Task<Result<Guid>> BeginAsync(
        string number, InvoiceBasis basis, Func<InvoiceSources, RepairFile, Result<List<InvoiceLine>>> linesOf, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return new RepairNotFound(number);
        if (await db.Invoices.AnyAsync(row => row.RepairId == file.Repair.Id && row.IssuedAt == null, cancel))
            return new InvoiceDraftWaiting();
        var now = clock.GetUtcNow();
        var day = file.Shop.Today(file.Repair.ReturnedAt ?? file.Repair.ReadyAt ?? now);
        var sources = await InvoiceSources.LoadAsync(db, file, day, cancel);
        var lines = linesOf(sources, file);
        if (!lines.IsDone)
            return lines.Failure;
        var terms = sources.TermsOf(basis);
        var invoice = new Invoice
        {
            RepairId = file.Repair.Id,
            CustomerId = file.Customer.Id,
            Kind = InvoiceKind.Invoice,
            Basis = basis,
            CreatedAt = now,
            CreatedBy = person.RequiredId,
            SupplyDate = day,
            Currency = sources.CurrencyOf(basis),
            Lines = lines.Value,
        };
        DraftTerms.Put(invoice, terms);
        db.Invoices.Add(invoice);
        if (await KeepAsync(invoice, cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return invoice.Id;
    }

    /// <summary>Another profile puts its own tax on every line; what else was typed is kept.</summary>
    private async Task<Result> ChangeProfileAsync(Invoice invoice, ShopSettings shop, Guid chosen, InvoiceDraft typed, uint version, CancellationToken cancel)
    {
        if (await db.TaxProfiles.AsNoTracking().SingleOrDefaultAsync(row => row.Id == chosen, cancel) is not { } profile || !profile.IsValidOn(typed.SupplyDate))
            return new ProfileNotValidOn(typed.SupplyDate);
        if (DraftLines.Check(typed.Lines, []) is { IsDone: false } unfit)
            return unfit;
        if (DraftTerms.Check(typed.Changes) is { IsDone: false } unreadable)
            return unreadable;
        if (invoice.Version != version)
            return new ChangedMeanwhile(Differences(AsForm(invoice), typed));
        var before = DraftTerms.Of(invoice, await TaxTermsReader.OfAsync(db, shop, invoice.TaxProfileId, cancel));
        Fill(invoice, typed, await DraftLines.TaxChoicesAsync(db, before, typed.SupplyDate, DraftTerms.InUse(invoice), cancel), shop);
        var terms = TaxTerms.Of(profile);
        var rates = await db.TaxRates.AsNoTracking().ValidOn(typed.SupplyDate)
            .OrderByDescending(row => row.IsDefault).ThenByDescending(row => row.Percent).ToListAsync(cancel);
        var lines = invoice.Lines.Where(line => line.DepositId is null).ToList();
        if (!before.ChargesTax)
            lines.ForEach(line => line.TaxName = ""); // "Export" and the like are no rates: the usual one takes their place
        TaxTermsLines.Tax(lines, terms, rates, keepsItsRates: false, invoice.PricesIncludeTax);
        DraftTerms.Put(invoice, terms);
        return await KeepAsync(invoice, cancel);
    }

    private void Fill(Invoice invoice, InvoiceDraft typed, IReadOnlyList<TaxChoice> taxes, ShopSettings shop)
    {
        (invoice.Note, invoice.SupplyDate) = (typed.Note.Trim(), typed.SupplyDate);
        invoice.CashStep = typed.RoundsToCoin ? shop.CashStep : 0;
        var kept = invoice.Lines.Where(line => line.DepositId is null).OrderBy(line => line.Position).ToList();
        for (var index = 0; index < typed.Lines.Count; index++)
        {
            var line = index < kept.Count ? kept[index] : new InvoiceLine { InvoiceId = invoice.Id };
            if (index >= kept.Count)
                db.InvoiceLines.Add(line);
            var from = typed.Lines[index];
            (line.Position, line.Kind, line.Text, line.Unit) = (index + 1, from.Kind, from.Text.Trim(), from.Unit.Trim());
            (line.Quantity, line.UnitPrice) = (from.HighQuantity, from.UnitPrice);
            (line.ChangePercent, line.ChangeAmount) = (from.Change.Percent, from.Change.Amount);
            (line.TaxName, line.TaxPercent, line.TaxCategory) = DraftLines.TaxOf(from, taxes);
        }
        foreach (var gone in kept.Skip(typed.Lines.Count))
        {
            invoice.Lines.Remove(gone);
            db.InvoiceLines.Remove(gone);
        }
        FillChanges(invoice, typed.Changes);
        // The draft's row is written even when only a line changed: its version guards them all.
        db.Entry(invoice).Property(row => row.Note).IsModified = true;
    }

    private void FillChanges(Invoice invoice, IReadOnlyList<PaperChange> typed)
    {
        var kept = invoice.Changes.OrderBy(change => change.Position).ToList();
        for (var index = 0; index < typed.Count; index++)
        {
            var change = index < kept.Count ? kept[index] : new InvoiceChange { InvoiceId = invoice.Id };
            if (index >= kept.Count)
                db.InvoiceChanges.Add(change);
            (change.Position, change.Text, change.Percent, change.Amount) = (index + 1, typed[index].Text.Trim(), typed[index].Change.Percent, typed[index].Change.Amount);
        }
        foreach (var gone in kept.Skip(typed.Count))
        {
            invoice.Changes.Remove(gone);
            db.InvoiceChanges.Remove(gone);
        }
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
