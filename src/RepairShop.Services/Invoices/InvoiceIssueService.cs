using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Post;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Estimates;
using RepairShop.Services.Files;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Post;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>Issues invoices and credit notes: number, sums, paper, electronic invoice and letter in one transaction, or none of them.</summary>
public sealed class InvoiceIssueService(
    ShopDb db, FileStore files, CurrentPerson person, TimeProvider clock, CeilingService ceilings, LetterService letters)
{
    /// <summary>Issues a draft. The repair's row is locked first, so that two drafts can't pass the approved amount together,
    /// and the number's row last, so that others wait as little as possible.</summary>
    /// <param name="id"></param>
    /// <param name="byMail">Write a letter too.</param>
    /// <param name="cancel"></param>
    public async Task<Result<IssuedPaper>> IssueAsync(Guid id, bool byMail, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await LockAsync(id, cancel) is not var (file, invoice))
            return new NoSuchInvoice();
        if (InvoiceRules.MayChange(invoice) is { IsDone: false } issued)
            return issued.Failure;
        await InvoiceService.TakeOffDepositsAsync(db, invoice, cancel);
        var totals = InvoiceService.Sum(invoice);
        var already = await db.Invoices
            .Where(row => row.RepairId == file.Repair.Id && row.IssuedAt != null && row.Kind == InvoiceKind.Invoice)
            .SumAsync(row => row.Gross + row.CashRounding - row.Credited, cancel);
        var ceiling = await ceilings.OfAsync(file.Repair.Id, cancel);
        if (InvoiceRules.MayIssue(invoice, totals, already, ceiling.UpTo) is { IsDone: false } refused)
            return refused.Failure;
        if (InvoiceRules.MayTax(invoice, file.Customer, file.Shop) is { IsDone: false } untaxable)
            return untaxable.Failure;
        var terms = DraftTerms.Of(invoice, await TaxTermsReader.OfAsync(db, file.Shop, invoice.TaxProfileId, cancel));
        db.InvoiceTaxes.AddRange(Owned(invoice, DraftTerms.Taxes(totals, terms, await db.TaxRates.AsNoTracking().ToListAsync(cancel))));
        // Lines and taxes can be written to a draft only: they first, then the issue, both in this transaction.
        if (await db.SaveAsync(cancel) is { IsDone: false } unsummed)
            return unsummed.Failure;
        var today = Stamp(invoice, file);
        invoice.DueDate = today.AddDays(file.Shop.PaymentTermDays);
        invoice.Number = await NumberAsync("invoice", file.Shop.InvoiceNumberFormat, today, cancel);
        var refers = new InvoiceRefersTo(
            [.. ceiling.Consents.Select(consent => consent.Sentence)], null, await DepositsOfAsync(invoice, cancel), terms.CashAccounting && terms.ChargesTax);
        var facts = InvoiceFactsBuilder.Build(file, invoice, totals, refers, person.Name);
        return await FinishAsync(file, invoice, PaperKind.Invoice, facts, byMail ? MailKind.Invoice : null, work.CommitAsync, cancel);
    }

    /// <summary>Takes all that is left of an invoice back with a credit note of its own number. Amounts on it are positive.</summary>
    public Task<Result<IssuedPaper>> CreditAsync(Guid id, string reason, bool byMail, CancellationToken cancel) =>
        CreditAsync(id, CreditRequest.Everything, reason, byMail, cancel);

    /// <summary>Takes part of an invoice back: some of its lines, or an amount at a rate.</summary>
    public async Task<Result<IssuedPaper>> CreditAsync(Guid id, CreditRequest request, string reason, bool byMail, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await LockAsync(id, cancel) is not var (file, invoice))
            return new NoSuchInvoice();
        var before = await db.Invoices.AsNoTracking().Include(row => row.Lines).Include(row => row.Changes).Include(row => row.Taxes)
            .Where(row => row.CreditsId == id && row.IssuedAt != null).OrderBy(row => row.IssuedAt).ToListAsync(cancel);
        var left = CreditLeft.Of(invoice, before);
        var taken = before.Count > 0 && left.IsNothing ? before[^1].Number : null;
        if (InvoiceRules.MayCredit(invoice, taken, reason, await TakenOffByAsync(invoice, cancel)) is { IsDone: false } refused)
            return refused.Failure;
        var lines = CreditDrafting.LinesOf(invoice, left, request);
        if (!lines.IsDone)
            return lines.Failure;
        var note = CreditOf(invoice, lines.Value, request.IsEverything && before.Count == 0, reason);
        var totals = left.Limit(note);
        if (!totals.IsDone)
            return totals.Failure;
        if (totals.Value.Payable == 0 && !request.IsEverything)
            return new CreditOfNothing();
        var terms = DraftTerms.Of(invoice, await TaxTermsReader.OfAsync(db, file.Shop, invoice.TaxProfileId, cancel));
        (note.Net, note.Tax, note.Gross, note.CashRounding) = (totals.Value.Net, totals.Value.Tax, totals.Value.Gross, totals.Value.CashRounding);
        note.Taxes = DraftTerms.Taxes(totals.Value, terms, await db.TaxRates.AsNoTracking().ToListAsync(cancel));
        foreach (var tax in note.Taxes.Where(tax => tax.Reason.Length == 0))
            tax.Reason = invoice.Taxes.FirstOrDefault(own => own.Key == tax.Key)?.Reason ?? "";
        db.Invoices.Add(note);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        var today = Stamp(note, file);
        note.Number = await NumberAsync("credit-note", file.Shop.CreditNoteNumberFormat, today, cancel);
        var facts = InvoiceFactsBuilder.Build(file, note, totals.Value, new InvoiceRefersTo([], invoice, [], false), person.Name);
        return await FinishAsync(file, note, PaperKind.CreditNote, facts, byMail ? MailKind.CreditNote : null, work.CommitAsync, cancel);
    }

    private Task<string> NumberAsync(string kind, string format, DateOnly today, CancellationToken cancel) =>
        NumberGiver.NextFreeAsync(db, kind, format, today, number => db.Invoices.AnyAsync(row => row.Number == number, cancel), cancel);

    private async Task<string?> TakenOffByAsync(Invoice deposit, CancellationToken cancel) => deposit.Basis != InvoiceBasis.Deposit ? null : Deposits.TakenOffBy(
        await db.Invoices.AsNoTracking().Include(row => row.Lines).Where(row => row.RepairId == deposit.RepairId && row.IssuedAt != null).ToListAsync(cancel), deposit.Id);

    private async Task<Result<IssuedPaper>> FinishAsync(
        RepairFile file, Invoice invoice, PaperKind kind, InvoiceFacts facts, MailKind? mail, Func<CancellationToken, Task> commit, CancellationToken cancel)
    {
        var electronic = EInvoicePress.Of(file.Shop, facts);
        if (!electronic.IsDone)
            return electronic.Failure;
        var paper = await PaperPress.PressAsync(
            db, files, kind, facts, new PaperOf(file.Repair.Id, person.RequiredId, InvoiceId: invoice.Id), cancel, electronic: electronic.Value);
        if (mail is { } letter && await letters.WriteAsync(file, letter, Values(file, invoice), [paper.Id], cancel) is { IsDone: false } unwritten)
            return unwritten.Failure;
        if (await db.SaveAsync(cancel, ("ck_invoices_credited", new CreditAboveInvoice()), ("ck_invoices_written_off", new CreditBelowWriteOff())) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await commit(cancel);
        return paper with { EInvoiceFaults = electronic.Value.Faults };
    }

    private static List<InvoiceTax> Owned(Invoice invoice, List<InvoiceTax> taxes)
    {
        foreach (var tax in taxes)
            tax.InvoiceId = invoice.Id;
        return taxes;
    }

    private async Task<IReadOnlyList<DepositFacts>> DepositsOfAsync(Invoice invoice, CancellationToken cancel)
    {
        var ids = invoice.Lines.Select(line => line.DepositId).OfType<Guid>().Distinct().ToList();
        return await db.Invoices.Where(row => ids.Contains(row.Id)).OrderBy(row => row.IssuedAt)
            .Select(row => new DepositFacts(row.Number!, row.IssueDate!.Value)).ToListAsync(cancel);
    }

    /// <summary>The repair and its invoice, read after the repair's row is locked.</summary>
    private async Task<(RepairFile File, Invoice Invoice)?> LockAsync(Guid id, CancellationToken cancel)
    {
        var number = await db.Repairs
            .Where(repair => db.Invoices.Any(invoice => invoice.Id == id && invoice.RepairId == repair.Id))
            .Select(repair => repair.Number).SingleOrDefaultAsync(cancel);
        if (number is null || await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return null;
        await InvoiceLock.TakeAsync(db, id, cancel); // whoever saves it now is done before it is read
        return await db.Invoices.Include(row => row.Lines).Include(row => row.Changes).Include(row => row.Taxes)
            .SingleOrDefaultAsync(row => row.Id == id, cancel) is { } invoice
            ? (file, invoice)
            : null;
    }

    private DateOnly Stamp(Invoice invoice, RepairFile file)
    {
        var now = clock.GetUtcNow();
        var today = file.Shop.Today(now);
        (invoice.IssuedAt, invoice.IssuedBy, invoice.IssueDate) = (now, person.RequiredId, today);
        invoice.SupplyDate ??= today;
        return today;
    }

    /// <param name="invoice"></param>
    /// <param name="lines"></param>
    /// <param name="whole">Nothing was given back before: discounts on the whole paper are taken over as they are.</param>
    /// <param name="reason"></param>
    private Invoice CreditOf(Invoice invoice, List<InvoiceLine> lines, bool whole, string reason) => new()
    {
        RepairId = invoice.RepairId,
        CustomerId = invoice.CustomerId,
        Kind = InvoiceKind.CreditNote,
        Basis = InvoiceBasis.Credit,
        CreditsId = invoice.Id,
        CreatedAt = clock.GetUtcNow(),
        CreatedBy = person.RequiredId,
        SupplyDate = invoice.SupplyDate,
        Currency = invoice.Currency,
        TaxRegistered = invoice.TaxRegistered,
        PricesIncludeTax = invoice.PricesIncludeTax,
        TaxProfileId = invoice.TaxProfileId,
        Treatment = invoice.Treatment,
        TaxRounding = invoice.TaxRounding,
        Note = reason.Trim(),
        Lines = lines,
        Changes = whole
            ? [.. invoice.Changes.Select(change => new InvoiceChange { Position = change.Position, Text = change.Text, Percent = change.Percent, Amount = change.Amount })]
            : [],
    };

    private static Dictionary<string, string> Values(RepairFile file, Invoice invoice) => new()
    {
        ["paper"] = invoice.Number!,
        ["total"] = file.Shop.Money(invoice.Payable, invoice.Currency),
        ["due"] = invoice.DueDate is { } due ? file.Shop.Day(due) : "",
    };
}
