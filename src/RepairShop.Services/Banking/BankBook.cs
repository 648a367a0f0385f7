using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;

namespace RepairShop.Services.Banking;

/// <summary>What became of a bank's lines, said in one way for all who ask.</summary>
internal static class BankBook
{
    /// <summary>The database's own refusals where a receipt or a note comes to a line.</summary>
    public static (string Constraint, Failure Failure)[] Refusals { get; } =
    [
        ("bank_line_booked_once", new BankLineBooked()), ("bank_line_set_aside", new BankLineSetAside()),
        ("receipt_is_as_bank_line", new ReceiptNotAsLine()), ("ux_bank_line_notes_number", new BankLineMoved()),
    ];

    public static Task<bool> BookedAsync(ShopDb db, Guid line, CancellationToken cancel) => Booked(db).AnyAsync(row => row.BankLineId == line, cancel);

    /// <summary>Receipts of lines that were not taken back.</summary>
    public static IQueryable<Domain.Invoices.Receipt> Booked(ShopDb db) =>
        db.Receipts.Where(row => row.BankLineId != null && !db.Receipts.Any(back => back.TakesBackId == row.Id));

    /// <summary>Money that came in and waits: neither booked nor set aside.</summary>
    public static IQueryable<BankLine> Waiting(ShopDb db) => db.BankLines.AsNoTracking().Where(line => line.Bar == BankLineBar.None
        && !Booked(db).Any(receipt => receipt.BankLineId == line.Id)
        && db.BankLineNotes.Count(note => note.LineId == line.Id) % 2 == 0);

    public static OpenLine Open(BankLine line) =>
        new(line.Id, line.BookedOn, line.Amount, line.Name, line.Iban, line.Reference, $"{line.Text}\n{line.EndToEndId}");
}
