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

/// <summary>Issues invoices and credit notes: number, sums, paper and letter in one transaction, or none of them.</summary>
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
        var totals = InvoiceService.TotalsOf(invoice);
        var already = await db.Invoices
            .Where(row => row.RepairId == file.Repair.Id && row.IssuedAt != null && row.Kind == InvoiceKind.Invoice)
            .SumAsync(row => row.Gross - row.Credited, cancel);
        var ceiling = await ceilings.OfAsync(file.Repair.Id, cancel);
        if (InvoiceRules.MayIssue(invoice, totals, already, ceiling.UpTo) is { IsDone: false } refused)
            return refused.Failure;
        var today = Stamp(invoice, file);
        invoice.DueDate = today.AddDays(file.Shop.PaymentTermDays);
        InvoiceService.Sum(invoice);
        invoice.Number = await NumberGiver.NextAsync(db, "invoice", file.Shop.InvoiceNumberFormat, today, cancel);
        var facts = InvoiceFactsBuilder.Build(
            file, invoice, totals, [.. ceiling.Consents.Select(consent => consent.Sentence)], credits: null, person.Name);
        return await FinishAsync(file, invoice, PaperKind.Invoice, facts, byMail ? MailKind.Invoice : null, work.CommitAsync, cancel);
    }

    /// <summary>Takes a whole invoice back with a credit note of its own number. Amounts on it are positive.</summary>
    public async Task<Result<IssuedPaper>> CreditAsync(Guid id, string reason, bool byMail, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (await LockAsync(id, cancel) is not var (file, invoice))
            return new NoSuchInvoice();
        var taken = await db.Invoices.Where(row => row.CreditsId == id).Select(row => row.Number).SingleOrDefaultAsync(cancel);
        if (InvoiceRules.MayCredit(invoice, taken, reason) is { IsDone: false } refused)
            return refused.Failure;
        var note = CreditOf(invoice, reason);
        db.Invoices.Add(note);
        // Its lines can be added to a draft only: the draft first, then the issue, both in this transaction.
        if (await db.SaveAsync(cancel, ("ux_invoices_credited_once", new AlreadyCredited(invoice.Number!, ""))) is { IsDone: false } unsaved)
            return unsaved.Failure;
        var today = Stamp(note, file);
        note.Number = await NumberGiver.NextAsync(db, "credit-note", file.Shop.CreditNoteNumberFormat, today, cancel);
        var facts = InvoiceFactsBuilder.Build(file, note, InvoiceService.TotalsOf(note), [], credits: invoice, person.Name);
        return await FinishAsync(file, note, PaperKind.CreditNote, facts, byMail ? MailKind.CreditNote : null, work.CommitAsync, cancel);
    }

    private async Task<Result<IssuedPaper>> FinishAsync(
        RepairFile file, Invoice invoice, PaperKind kind, InvoiceFacts facts, MailKind? mail, Func<CancellationToken, Task> commit, CancellationToken cancel)
    {
        var paper = await PaperPress.PressAsync(
            db, files, kind, facts, new PaperOf(file.Repair.Id, person.RequiredId, InvoiceId: invoice.Id), cancel);
        if (mail is { } letter && await letters.WriteAsync(file, letter, Values(file, invoice), [paper.Id], cancel) is { IsDone: false } unwritten)
            return unwritten.Failure;
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await commit(cancel);
        return paper;
    }

    /// <summary>The repair and its invoice, read after the repair's row is locked.</summary>
    private async Task<(RepairFile File, Invoice Invoice)?> LockAsync(Guid id, CancellationToken cancel)
    {
        var number = await db.Repairs
            .Where(repair => db.Invoices.Any(invoice => invoice.Id == id && invoice.RepairId == repair.Id))
            .Select(repair => repair.Number).SingleOrDefaultAsync(cancel);
        if (number is null || await RepairFile.LockAsync(db, number, cancel) is not { } file)
            return null;
        return await db.Invoices.Include(row => row.Lines).SingleOrDefaultAsync(row => row.Id == id, cancel) is { } invoice
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

    private Invoice CreditOf(Invoice invoice, string reason) => new()
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
        Note = reason.Trim(),
        Net = invoice.Net,
        Tax = invoice.Tax,
        Gross = invoice.Gross,
        Lines = [.. invoice.Lines.Select(line => new InvoiceLine
        {
            Position = line.Position,
            Kind = line.Kind,
            Text = line.Text,
            Quantity = line.Quantity,
            Unit = line.Unit,
            UnitPrice = line.UnitPrice,
            TaxName = line.TaxName,
            TaxPercent = line.TaxPercent,
        })],
    };

    private static Dictionary<string, string> Values(RepairFile file, Invoice invoice) => new()
    {
        ["paper"] = invoice.Number!,
        ["total"] = file.Shop.Money(invoice.Gross, invoice.Currency),
        ["due"] = invoice.DueDate is { } due ? file.Shop.Day(due) : "",
    };
}
