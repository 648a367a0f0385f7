using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;

namespace RepairShop.Services.Banking;

/// <summary>Reading statements: which there are, their lines, what each may be and what became of it.</summary>
public sealed class BankReadService(ShopDb db, TimeProvider clock)
{
    public const int LinesAPage = 40;

    /// <summary>The newest first.</summary>
    public async Task<ListPage<StatementRow>> ListAsync(string? after, CancellationToken cancel)
    {
        var statements = db.BankStatements.AsNoTracking();
        if (ListKey.ReadTime(after) is { } from)
            statements = statements.Where(row => EF.Functions.LessThan(ValueTuple.Create(row.ImportedAt, row.Id), ValueTuple.Create(from.At, from.Id)));
        var waiting = BankBook.Waiting(db);
        var rows = await statements.OrderByDescending(row => row.ImportedAt).ThenByDescending(row => row.Id).Take(ListPages.Size + 1)
            .Select(row => new StatementRow(
                row.Id, row.FileName, row.Account, row.From, row.Until, row.ImportedAt, row.LineCount, waiting.Count(line => line.StatementId == row.Id)))
            .ToListAsync(cancel);
        return ListPages.Of(rows, row => ListKey.Write(row.ImportedAt, row.Id), []);
    }

    /// <param name="after">Position of the last line of the page before; 0 for the first page.</param>
    public async Task<Result<StatementView>> StatementAsync(Guid id, LineShow show, int after, CancellationToken cancel)
    {
        if (await db.BankStatements.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } statement)
            return new StatementNotFound();
        var lines = show == LineShow.Waiting ? BankBook.Waiting(db) : db.BankLines.AsNoTracking();
        var page = await lines.Where(line => line.StatementId == id && line.Position > after).OrderBy(line => line.Position).Take(LinesAPage + 1).ToListAsync(cancel);
        var shown = await ViewsAsync([.. page.Take(LinesAPage)], cancel);
        var by = await db.Users.Where(row => row.Id == statement.ImportedBy).Select(row => row.DisplayName).SingleOrDefaultAsync(cancel) ?? "";
        return new StatementView(statement, by, await CountsAsync(id, cancel), shown, page.Count > LinesAPage ? shown[^1].Line.Position : null);
    }

    public async Task<Result<BankLineView>> LineAsync(Guid id, CancellationToken cancel) =>
        await db.BankLines.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is { } line ? (await ViewsAsync([line], cancel))[0] : new BankLineNotFound();

    private async Task<LineCounts> CountsAsync(Guid id, CancellationToken cancel)
    {
        var lines = db.BankLines.Where(line => line.StatementId == id);
        var barred = await lines.CountAsync(line => line.Bar != BankLineBar.None, cancel);
        var booked = await lines.CountAsync(line => BankBook.Booked(db).Any(receipt => receipt.BankLineId == line.Id), cancel);
        var waiting = await BankBook.Waiting(db).CountAsync(line => line.StatementId == id, cancel);
        return new LineCounts(waiting, booked, await lines.CountAsync(cancel) - barred - booked - waiting, barred);
    }

    private async Task<IReadOnlyList<BankLineView>> ViewsAsync(List<BankLine> lines, CancellationToken cancel)
    {
        var ids = lines.ConvertAll(line => line.Id);
        var booked = await BookedAsync(ids, cancel);
        var notes = (await db.BankLineNotes.AsNoTracking().Where(note => ids.Contains(note.LineId)).ToListAsync(cancel))
            .GroupBy(note => note.LineId).ToDictionary(group => group.Key, group => group.MaxBy(note => note.Number)!);
        LineState StateOf(BankLine line) => line.Bar != BankLineBar.None ? LineState.NeverBooked
            : booked.ContainsKey(line.Id) ? LineState.Booked
            : notes.GetValueOrDefault(line.Id) is { } note && note.Number % 2 == 1 ? LineState.Aside : LineState.Waiting;
        var matches = lines.Exists(line => StateOf(line) == LineState.Waiting) ? await BankMatches.OfAsync(db, clock.GetUtcNow(), cancel) : null;
        return [.. lines.Select(line => new BankLineView(
            line, StateOf(line), StateOf(line) == LineState.Waiting ? matches?.GetValueOrDefault(line.Id) : null, booked.GetValueOrDefault(line.Id),
            StateOf(line) == LineState.Aside ? notes[line.Id].Reason : ""))];
    }

    private async Task<Dictionary<Guid, BookedView>> BookedAsync(List<Guid> lines, CancellationToken cancel)
    {
        var receipts = await (
            from receipt in BankBook.Booked(db)
            join customer in db.Customers on receipt.CustomerId equals customer.Id
            join person in db.Users on receipt.RecordedBy equals person.Id into people
            from person in people.DefaultIfEmpty()
            where lines.Contains(receipt.BankLineId!.Value)
            select new { Receipt = receipt, customer.Name, customer.Company, By = person == null ? "" : person.DisplayName }).AsNoTracking().ToListAsync(cancel);
        var ids = receipts.ConvertAll(row => row.Receipt.Id);
        var shares = (await (
            from payment in db.Payments
            join invoice in db.Invoices on payment.InvoiceId equals invoice.Id
            join repair in db.Repairs on invoice.RepairId equals repair.Id
            where payment.ReceiptId != null && ids.Contains(payment.ReceiptId.Value)
            orderby invoice.Number
            select new { payment.ReceiptId, Share = new ShareView(invoice.Number!, repair.Number, payment.Amount, 0) }).ToListAsync(cancel)).ToLookup(row => row.ReceiptId!.Value, row => row.Share);
        return receipts.ToDictionary(row => row.Receipt.BankLineId!.Value, row => new BookedView(
            row.Receipt.Id, row.Receipt.CustomerId, row.Name.Length > 0 ? row.Name : row.Company, [.. shares[row.Receipt.Id]],
            row.Receipt.Amount - shares[row.Receipt.Id].Sum(share => share.Amount), row.Receipt.RecordedAt, row.By));
    }
}
