using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Banking;
using RepairShop.Services.Tests.Invoices;
using RepairShop.Testing.Banking;

namespace RepairShop.Services.Tests.Banking;

/// <summary>A person with a statement in the hand, at a book with one debtor.</summary>
internal static class BankDesk
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    public static async Task<Guid> Import(this MoneyBook book, params string[] entries) =>
        MoneyBook.Done(await book.Send(CamtFiles.File(entries))).Kept!.Id;

    public static Task<Result<StatementSent>> Send(this MoneyBook book, byte[] file) =>
        book.Do<StatementImportService, Result<StatementSent>>(service => service.SendAsync("statement.xml", file, Ct));

    public static async Task<StatementView> Statement(this MoneyBook book, Guid id, LineShow show = LineShow.All) =>
        MoneyBook.Done(await book.Do<BankReadService, Result<StatementView>>(service => service.StatementAsync(id, show, 0, Ct)));

    public static async Task<BankLineView> Line(this MoneyBook book, Guid statement, int index = 0) => (await book.Statement(statement)).Lines[index];

    public static async Task<Failure?> Book(this MoneyBook book, Guid line, BookingChoice choice, Guid? form = null) =>
        (await book.Do<BankBookingService, IReadOnlyList<BookingOutcome>>(service => service.BookAsync([new TypedBooking(line, choice, form ?? Guid.NewGuid())], Ct)))[0].Refused;

    /// <summary>As the first proposal says.</summary>
    public static Task<Failure?> BookFirst(this MoneyBook book, BankLineView line) => book.Book(line.Line.Id, BookingChoice.Read(line.Match!.Proposals[0].Choice)!);

    public static BookingChoice Choice(this Debtor who, params decimal[] shares) =>
        new(who.Customer, [.. shares.Zip(who.Invoices, (share, id) => new ReceiptShare(id, share)).Where(share => share.Amount != 0)]);
}
