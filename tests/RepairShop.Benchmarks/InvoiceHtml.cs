using System.Globalization;
using System.Net;
using System.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Benchmarks;

/// <summary>An invoice's words and figures as a printable page; without the payment code our paper carries, which spares the browser a picture.</summary>
internal static class InvoiceHtml
{
    private const string Style =
        """
        body { font: 10pt/1.4 sans-serif; margin: 0 } h1 { font-size: 20pt } table { width: 100%; border-collapse: collapse }
        th, td { text-align: left; padding: 3pt; border-bottom: 0.5pt solid #999 } .n { text-align: right; font-variant-numeric: tabular-nums }
        .two { display: grid; grid-template-columns: 1fr 1fr; gap: 12pt } .quiet { color: #555 }
        """;

    public static string Write(InvoiceFacts facts)
    {
        var lines = new StringBuilder();
        foreach (var line in facts.Lines)
            lines.Append(CultureInfo.InvariantCulture, $"<tr><td>{Safe(line.Text)}</td><td class=n>{line.Quantity:0.##} {Safe(line.Unit)}</td><td class=n>{line.UnitPrice:N2}</td><td class=n>{line.TaxPercent:0.#} %</td><td class=n>{line.Amount:N2}</td></tr>");
        var taxes = string.Concat(facts.Taxes.Select(tax => Sum($"{tax.Name} {tax.Percent:0.#} % on {tax.Base:N2}", tax.Tax)));
        var camera = facts.Camera;
        return
            $"""
            <!doctype html><html lang="en"><meta charset="utf-8"><title>Invoice {facts.PaperNumber}</title><style>{Style}</style>
            <div class=two><div><b>{Safe(facts.Shop.Name)}</b><br>{Each(facts.Shop.AddressLines)}<br>{Safe(facts.Shop.Phone)}<br>{Safe(facts.Shop.Email)}<br>{Safe(facts.Shop.Website)}<br>Tax no. {Safe(facts.Shop.TaxNumber)}</div>
            <div>{Safe(facts.Customer.Name)}<br>{Each(facts.Customer.AddressLines)}<br>{Safe(facts.Customer.Phone)}<br>{Safe(facts.Customer.Email)}</div></div>
            <h1>Invoice {facts.PaperNumber}</h1>
            <p>Date {facts.IssueDate:d MMMM yyyy} · supplied {facts.SupplyDate:d MMMM yyyy} · due {facts.DueDate:d MMMM yyyy} · repair {facts.RepairNumber}</p>
            <p>{Safe(camera.Maker)} {Safe(camera.Model)} {Safe(camera.Variant)}, {Safe(camera.Format)}, no. {Safe(camera.BodySerial)}; {Safe(camera.Lens)} no. {Safe(camera.LensSerial)}; {Safe(camera.Shutter)} no. {Safe(camera.ShutterSerial)}</p>
            <p class=quiet>{Safe(facts.Complaint)}</p><p>{Each(facts.Approvals)}</p>
            <table><thead><tr><th>Work and parts<th class=n>Quantity<th class=n>Price<th class=n>Tax<th class=n>Amount</thead><tbody>{lines}</tbody></table>
            <table>{Sum("Net", facts.Net)}{taxes}{Sum("Total", facts.Total)}{Sum("Paid", facts.Paid)}{Sum("To pay", facts.Due)}</table>
            <p>{Safe(facts.Terms)}</p><p>IBAN {Safe(facts.Shop.Iban)} · BIC {Safe(facts.Shop.Bic)}</p>
            <p>Guaranteed until {facts.WarrantyUntil:d MMMM yyyy}.</p><p>{Each(facts.Notes)}</p></html>
            """;
    }

    private static string Sum(string name, decimal amount) =>
        string.Create(CultureInfo.InvariantCulture, $"<tr><td>{Safe(name)}<td class=n>€{amount:N2}");

    private static string Each(IEnumerable<string> lines) => string.Join("<br>", lines.Select(Safe));

    private static string Safe(string? text) => WebUtility.HtmlEncode(text ?? "");
}
