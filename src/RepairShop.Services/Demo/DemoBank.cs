using System.Globalization;
using System.Text;
using System.Xml.Linq;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Banking;
using RepairShop.Services.Database;

namespace RepairShop.Services.Demo;

/// <summary>A statement of the last days: one transfer is booked already, the others wait, each known differently well. The accounts are
/// published examples of ISO 13616.</summary>
internal static class DemoBank
{
    private const decimal Opening = 4_180.25m;

    public static async Task AddAsync(DemoBook book, SeedShop shop)
    {
        var open = await book.DoAsync<ShopDb, List<Owed>>("owner", async db => await (
            from invoice in db.Invoices.AsNoTracking()
            join customer in db.Customers on invoice.CustomerId equals customer.Id
            where invoice.Kind == InvoiceKind.Invoice && invoice.IssuedAt != null && invoice.Currency == shop.Currency
                && invoice.Gross + invoice.CashRounding - invoice.Credited - invoice.Paid - invoice.WrittenOff > 20
            orderby invoice.Number
            select new Owed(invoice.Number!, invoice.Gross + invoice.CashRounding - invoice.Credited - invoice.Paid - invoice.WrittenOff, customer.Name)).ToListAsync(book.Cancel));
        var statement = (await book.DoAsync<StatementImportService, StatementSent>("counter", import =>
            import.SendAsync("statement-11.xml", Encoding.UTF8.GetBytes(File(shop, DateOnly.FromDateTime(book.Now.UtcDateTime), open)), book.Cancel))).Kept!.Id;
        var lines = (await book.DoAsync<BankReadService, StatementView>("counter", reader => reader.StatementAsync(statement, LineShow.Waiting, 0, book.Cancel))).Lines;
        if (lines.FirstOrDefault(line => line.Match is { IsSure: true }) is { } sure)
            await book.DoAsync<BankBookingService>("counter", async bookings =>
                (await bookings.BookAsync([new(sure.Line.Id, BookingChoice.Read(sure.Match!.Proposals[0].Choice)!, Guid.CreateVersion7())], book.Cancel))[0].Refused is { } refused ? (Result)refused : Result.Done);
    }

    private static string File(SeedShop shop, DateOnly today, List<Owed> open)
    {
        Paid[] all =
        [
            .. open.Take(1).Select(one => new Paid(one.Amount, one.Name.ToUpperInvariant(), "GB82WEST12345698765432", "", CreditorReference.Of(one.Number) ?? "", 3)),
            .. open.Skip(1).Take(1).Select(one => new Paid(one.Amount, one.Name, "AT611904300234573201", $"Invoice {one.Number.Replace("-", " ", StringComparison.Ordinal)}, thank you for the quick work", "", 3)),
            .. open.Skip(2).Take(1).Select(one => new Paid(one.Amount - 10, one.Name, "BE68539007547034", $"{one.Number} less 10 for the strap", "", 2)),
            .. open.Skip(3).Take(1).Select(one => new Paid(one.Amount, "Quayside Holdings", "FR1420041010050500013M02606", "camera repair", "", 2)),
            new Paid(38.40m, "Pelham Weir", "NL20INGB0001234567", "for the lens cap you sent", "", 1),
            new Paid(-620, "Harbour Lettings", "DE33100205000001194700", "Rent of the workshop", "", 1),
        ];
        XNamespace camt = "urn:iso:std:iso:20022:tech:xsd:camt.053.001.08";
        XElement Of(string name, params object[] content) => new(camt + name, content);
        XElement Money(decimal amount) => Of("Amt", new XAttribute("Ccy", shop.Currency), Math.Abs(amount).ToString("0.00", CultureInfo.InvariantCulture));
        XElement Direction(decimal amount) => Of("CdtDbtInd", amount < 0 ? "DBIT" : "CRDT");
        XElement Day(int ago) => Of("Dt", today.AddDays(-ago).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        XElement Balance(string type, decimal amount) => Of("Bal", Of("Tp", Of("CdOrPrtry", Of("Cd", type))), Money(amount), Direction(amount), Of("Dt", Day(0)));
        XElement Entry(Paid one, int number)
        {
            var (party, account) = one.Amount < 0 ? ("Cdtr", "CdtrAcct") : ("Dbtr", "DbtrAcct");
            return Of("Ntry", Money(one.Amount), Direction(one.Amount), Of("Sts", Of("Cd", "BOOK")), Of("BookgDt", Day(one.DaysAgo)), Of("ValDt", Day(one.DaysAgo)),
                Of("AcctSvcrRef", string.Create(CultureInfo.InvariantCulture, $"{today:yyMMdd}{number:0000}")),
                Of("NtryDtls", Of("TxDtls", Of("RltdPties", Of(party, Of("Pty", Of("Nm", one.Name))), Of(account, Of("Id", Of("IBAN", one.Iban)))),
                    Of("RmtInf", one.Text.Length > 0 ? Of("Ustrd", one.Text) : Of("Strd", Of("CdtrRefInf", Of("Ref", one.Reference)))))));
        }

        return new XDocument(Of("Document", Of("BkToCstmrStmt", Of("Stmt", Of("Id", "11"), Of("Acct", Of("Id", Of("IBAN", shop.Iban)), Of("Ccy", shop.Currency)),
            Balance("OPBD", Opening), Balance("CLBD", Opening + all.Sum(one => one.Amount)), all.Select((one, i) => Entry(one, i + 1)))))).ToString();
    }

    private sealed record Owed(string Number, decimal Amount, string Name);

    private sealed record Paid(decimal Amount, string Name, string Iban, string Text, string Reference, int DaysAgo);
}
