using RepairShop.Domain.Banking;
using RepairShop.Domain.Invoices;

namespace RepairShop.Domain.Tests.Banking;

internal static class SomeLines
{
    public static readonly DateOnly Today = new(2026, 11, 26);

    public static readonly Guid Ada = new("00000000-0000-0000-0000-00000000000a"), Bea = new("00000000-0000-0000-0000-00000000000b");

    public static OpenInvoice Owed(string number, decimal owed, Guid? customer = null, string name = "Ada Sample", int daysAgo = 20) =>
        new(customer ?? Ada, [name], new OwedInvoice(Guid.NewGuid(), Today.AddDays(14 - daysAgo), Today.AddDays(-daysAgo), number, owed));

    public static OpenLine Line(decimal amount, string text = "", string name = "", string iban = "", string reference = "") =>
        new(Guid.NewGuid(), Today, amount, name, iban, reference, text);

    public static LineMatch Match(OpenLine line, params OpenInvoice[] open) => new Matcher(open, [], Nobody).Match([line])[line.Id];

    public static ILookup<string, Guid> Nobody { get; } = Array.Empty<(string, Guid)>().ToLookup(one => one.Item1, one => one.Item2);
}
