using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Invoices;

/// <summary>An invoice's lines, discounts, taxes and totals as its paper says them.</summary>
public static class InvoiceFigures
{
    /// <param name="facts">With everything but the figures.</param>
    /// <param name="invoice">With lines, changes and taxes.</param>
    /// <param name="totals">Of the invoice.</param>
    public static InvoiceFacts Fill(InvoiceFacts facts, Invoice invoice, Totals totals) => facts with
    {
        Lines = [.. invoice.Lines.OrderBy(line => line.Position).Select((line, index) => Line(invoice, line, totals.LineAmounts[index]))],
        Allowances = [.. totals.Changes.Select(share => Allowance(invoice, share, totals))],
        PricesIncludeTax = invoice.PricesIncludeTax,
        Net = totals.Net,
        Taxes = [.. totals.Taxes.Select(tax => new TaxTotalFacts
        {
            Name = tax.Name,
            Category = tax.Category,
            Percent = tax.Percent,
            Base = tax.Net,
            Tax = tax.Tax,
            Reason = invoice.Taxes.FirstOrDefault(row => row.Key == tax.Key)?.Reason is { Length: > 0 } reason ? reason : null,
        })],
        TaxTotal = totals.Tax,
        Total = totals.Gross,
        Rounding = !invoice.TaxRegistered ? null : invoice.TaxRounding == TaxRounding.PerLine ? RoundingFacts.PerLine : RoundingFacts.PerRate,
        CashRounding = totals.CashRounding,
        Paid = 0,
        Due = totals.Payable,
        IsDeposit = invoice.Basis == InvoiceBasis.Deposit,
    };

    public static LineGroup GroupOf(LineKind kind) => kind switch
    {
        LineKind.Labour => LineGroup.Labour,
        LineKind.Part => LineGroup.Part,
        LineKind.Material => LineGroup.Material,
        _ => LineGroup.Other,
    };

    private static LineFacts Line(Invoice invoice, InvoiceLine line, decimal amount)
    {
        var taxed = invoice.TaxRegistered && line.TaxName.Length > 0;
        var digits = Amount.Digits(invoice.Currency);
        var change = line.Priced().Change;
        return new LineFacts
        {
            Group = line.DepositId is null ? GroupOf(line.Kind) : LineGroup.Deposit,
            Text = line.Text,
            Quantity = line.Quantity,
            Unit = line.Unit,
            UnitPrice = line.UnitPrice,
            Amount = amount,
            Change = change.IsNone ? null : change.On(Totals.Round(line.Quantity * line.UnitPrice, digits), digits),
            ChangePercent = line.ChangePercent,
            TaxPercent = taxed ? line.TaxPercent : null,
            Category = taxed ? line.Priced().Key.Category : null,
            TaxName = taxed ? line.TaxName : null,
        };
    }

    private static AllowanceFacts Allowance(Invoice invoice, ChangeShare share, Totals totals) => new(
        totals.Taxes.Count > 1 && invoice.TaxRegistered ? $"{share.Text}, {share.Key.Name}" : share.Text, -share.Amount, invoice.TaxRegistered ? share.Key.Percent : null)
    {
        Percent = share.Percent is { } percent ? Math.Abs(percent) : null,
        Base = share.Base,
        Category = invoice.TaxRegistered ? share.Key.Category : null,
        TaxName = invoice.TaxRegistered ? share.Key.Name : null,
    };
}
