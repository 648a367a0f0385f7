using System.Globalization;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Invoices;

/// <param name="Rows"></param>
/// <param name="Next">Cursor for the next page; null at the end.</param>
public sealed record InvoicePage(IReadOnlyList<InvoiceRow> Rows, string? Next);

/// <summary>All invoices, a page at a time. Pages go on from the last row shown, so the hundredth is as quick as the first.</summary>
public sealed class InvoiceListService(ShopDb db)
{
    private const int PageSize = 50;
    private const int LongestQuery = 200;

    /// <param name="show">Unpaid: longest due first. All: newest first.</param>
    /// <param name="search">Number, repair or customer, part of a word; a slip of the finger is forgiven.</param>
    /// <param name="after">Cursor from the page before.</param>
    /// <param name="cancel"></param>
    public async Task<InvoicePage> ListAsync(InvoiceShow show, string search, string? after, CancellationToken cancel)
    {
        var words = TypedText.Cut(TypedText.OneLine(search), LongestQuery).Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Take(6).ToList();
        var page = await PageAsync(Matching(words), show, after, cancel);
        // A later page is empty behind the end of what was typed, or because the first forgave a slip and this one has to as well.
        if (page.Rows.Count == 0 && words.Count > 0 && (after is null || (await PageAsync(Matching(words), show, null, cancel)).Rows.Count == 0))
            page = await PageAsync(Similar(string.Join(' ', words)), show, after, cancel);
        return page;
    }

    private IQueryable<Invoice> Matching(List<string> words)
    {
        var invoices = db.Invoices.AsNoTracking();
        foreach (var word in words)
        {
            var pattern = $"%{word.Replace("\\", "\\\\").Replace("%", "\\%").Replace("_", "\\_")}%";
            var matching = db.Invoices.FromSql($"select i.*, i.xmin from invoices i where i.search_text like shop_fold({pattern})").Select(row => row.Id);
            invoices = invoices.Where(row => matching.Contains(row.Id));
        }
        return invoices;
    }

    // The operator, not the function: only it uses the trigram index.
    private IQueryable<Invoice> Similar(string text)
    {
        var similar = db.Invoices.FromSql($"select i.*, i.xmin from invoices i where shop_fold({text}) <% i.search_text").Select(row => row.Id);
        return db.Invoices.AsNoTracking().Where(row => similar.Contains(row.Id));
    }

    private async Task<InvoicePage> PageAsync(IQueryable<Invoice> invoices, InvoiceShow show, string? after, CancellationToken cancel)
    {
        var cursor = Cursor.Read(after);
        var ordered = show switch
        {
            InvoiceShow.Unpaid => Unpaid(invoices, cursor),
            InvoiceShow.Drafts => Drafts(invoices, cursor),
            _ => All(invoices, cursor),
        };
        var rows = await (
            from invoice in ordered.Take(PageSize + 1)
            join repair in db.Repairs on invoice.RepairId equals repair.Id
            join customer in db.Customers on invoice.CustomerId equals customer.Id
            join camera in db.Cameras on repair.CameraId equals camera.Id
            select new
            {
                Row = new InvoiceRow(
                    invoice.Id, repair.Number, invoice.Kind, invoice.Number, invoice.IssueDate, invoice.DueDate, customer.Name,
                    camera.Maker + " " + camera.Model, invoice.Currency, invoice.Gross + invoice.CashRounding,
                    invoice.Kind == InvoiceKind.Invoice ? invoice.Gross + invoice.CashRounding - invoice.Credited - invoice.Paid - invoice.WrittenOff : 0),
                invoice.IssuedAt,
                invoice.CreatedAt,
            }).ToListAsync(cancel);
        var sorted = show switch
        {
            InvoiceShow.Unpaid => rows.OrderBy(row => row.Row.DueDate).ThenBy(row => row.Row.Id).ToList(),
            InvoiceShow.Drafts => [.. rows.OrderByDescending(row => row.CreatedAt).ThenByDescending(row => row.Row.Id)],
            _ => [.. rows.OrderByDescending(row => row.IssuedAt).ThenByDescending(row => row.Row.Id)],
        };
        if (sorted.Count <= PageSize)
            return new InvoicePage([.. sorted.Select(row => row.Row)], null);
        var last = sorted[PageSize - 1];
        var at = show == InvoiceShow.Unpaid
            ? new DateTimeOffset(last.Row.DueDate!.Value.ToDateTime(TimeOnly.MinValue), TimeSpan.Zero)
            : show == InvoiceShow.Drafts ? last.CreatedAt : last.IssuedAt!.Value;
        return new InvoicePage([.. sorted.Take(PageSize).Select(row => row.Row)], new Cursor(at, last.Row.Id).ToString());
    }

    private static IQueryable<Invoice> Unpaid(IQueryable<Invoice> invoices, Cursor? cursor)
    {
        // Word for word the condition of the index ix_invoices_open.
        var open = invoices.Where(row => row.Kind == InvoiceKind.Invoice && row.IssuedAt != null && row.Gross + row.CashRounding - row.Credited - row.Paid - row.WrittenOff != 0);
        if (cursor is { } from)
        {
            var day = DateOnly.FromDateTime(from.At.UtcDateTime);
            open = open.Where(row => EF.Functions.GreaterThan(ValueTuple.Create(row.DueDate, row.Id), ValueTuple.Create((DateOnly?)day, from.Id)));
        }
        return open.OrderBy(row => row.DueDate).ThenBy(row => row.Id);
    }

    private static IQueryable<Invoice> All(IQueryable<Invoice> invoices, Cursor? cursor)
    {
        var issued = invoices.Where(row => row.IssuedAt != null);
        if (cursor is { } from)
            issued = issued.Where(row => EF.Functions.LessThan(ValueTuple.Create(row.IssuedAt, row.Id), ValueTuple.Create((DateTimeOffset?)from.At, from.Id)));
        return issued.OrderByDescending(row => row.IssuedAt).ThenByDescending(row => row.Id);
    }

    private static IQueryable<Invoice> Drafts(IQueryable<Invoice> invoices, Cursor? cursor)
    {
        var drafts = invoices.Where(row => row.IssuedAt == null);
        if (cursor is { } from)
            drafts = drafts.Where(row => EF.Functions.LessThan(ValueTuple.Create(row.CreatedAt, row.Id), ValueTuple.Create(from.At, from.Id)));
        return drafts.OrderByDescending(row => row.CreatedAt).ThenByDescending(row => row.Id);
    }

    /// <summary>Where the next page goes on.</summary>
    private readonly record struct Cursor(DateTimeOffset At, Guid Id)
    {
        // The database keeps microseconds.
        public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{At.UtcTicks / 10}_{Id:N}");

        public static Cursor? Read(string? text)
        {
            var parts = text?.Split('_');
            return parts is { Length: 2 } && long.TryParse(parts[0], CultureInfo.InvariantCulture, out var micros)
                && micros is > 0 and < 300_000_000_000_000_000 && Guid.TryParseExact(parts[1], "N", out var id)
                ? new Cursor(new DateTimeOffset(micros * 10, TimeSpan.Zero), id)
                : null;
        }
    }
}
