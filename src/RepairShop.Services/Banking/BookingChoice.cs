using System.Globalization;
using RepairShop.Domain.Invoices;

namespace RepairShop.Services.Banking;

/// <summary>What a line is to be booked as, as one word of a form: so that what is booked is what was shown, whatever happened since.</summary>
/// <param name="Customer">Whose money it is.</param>
/// <param name="Shares">Empty where all of it becomes the customer's credit.</param>
public sealed record BookingChoice(Guid Customer, IReadOnlyList<ReceiptShare> Shares)
{
    private const int MostShares = 500;

    public override string ToString() =>
        string.Join('_', Shares.Select(share => string.Create(CultureInfo.InvariantCulture, $"{share.InvoiceId:N}-{share.Amount}")).Prepend(Customer.ToString("N")));

    /// <summary>Null where it is no word of ours.</summary>
    public static BookingChoice? Read(string? word)
    {
        var parts = (word ?? "").Split('_');
        if (!Guid.TryParseExact(parts[0], "N", out var customer) || parts.Length - 1 > MostShares)
            return null;
        var shares = new List<ReceiptShare>();
        foreach (var part in parts.Skip(1))
        {
            var pair = part.Split('-');
            if (pair.Length != 2 || !Guid.TryParseExact(pair[0], "N", out var invoice) || !decimal.TryParse(pair[1], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var amount))
                return null;
            shares.Add(new ReceiptShare(invoice, amount));
        }

        return new BookingChoice(customer, shares);
    }
}
