using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Invoices;

/// <summary>Profiles, deposit, discount, credit in part and the electronic invoice, as a person without script goes through them.</summary>
public sealed class TaxStories(PostgresServer server)
{
    private const string Number = "2026-0001";

    private static async Task<ShopApp> Start(PostgresServer server)
    {
        var app = await ShopApp.Start(server, ("Mail:Host", ""));
        await app.WithDb(async db =>
        {
            var shop = await db.Shop.SingleAsync();
            (shop.Name, shop.Currency, shop.LabourRate, shop.TaxRegistered, shop.TaxNumber) = ("Tern Street Cameras", "EUR", 60, true, "IE1234567FA");
            (shop.Locale, shop.TimeZone, shop.Address.CountryCode, shop.EInvoices) = ("en-IE", "Europe/Dublin", "IE", EInvoiceUse.WherePossible);
            var customer = new Customer { Name = "Ada Example", CreatedAt = DateTimeOffset.UtcNow };
            customer.Address.CountryCode = "DE";
            var camera = new Camera { OwnerId = customer.Id, Maker = "Example Works", Model = "Model 3", CreatedAt = DateTimeOffset.UtcNow };
            db.TaxRates.Add(new TaxRate { Name = "Standard", Percent = 21, IsDefault = true });
            db.AddRange(customer, camera, new Repair
            {
                Number = Number,
                CustomerId = customer.Id,
                CameraId = camera.Id,
                BookedAt = DateTimeOffset.UtcNow.AddDays(-1),
                Complaint = "Slow speeds drag",
                PreApprovedLimit = 500,
            });
            return await db.SaveChangesAsync();
        });
        return app;
    }

    [Fact]
    public async Task A_deposit_a_discount_and_a_credit_in_part_go_through_the_page()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await client.Open($"/repairs/{Number}/invoice");
        await client.Press("Begin a deposit invoice", ("Deposit", ""));
        Assert.StartsWith("The deposit is empty", Assert.Single(client.Errors));
        await client.Press("Begin a deposit invoice", ("Deposit", "50"));
        await client.Press("Issue invoice");
        Assert.Contains("Invoice I-", client.Notice);
        Assert.Contains("Deposit invoice I-", client.Text);

        await client.Press("As worked");
        await client.Press("Keep draft", ("Input.Lines[0].Text", "Labour"), ("Input.Lines[0].HighQuantity", "2"), ("Input.Lines[0].UnitPrice", "60"),
            ("Input.Lines[0].Change", "ten"), ("Input.Changes[0].Text", "Goodwill"), ("Input.Changes[0].Change", "5 %"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Equal("ten", client.Value("Input.Lines[0].Change"));
        await client.Press("Keep draft", ("Input.Lines[0].Change", "10 %"));
        Assert.Equal("The draft is kept.", client.Notice);
        // 120 − 12 = 108; less 5 % = 102.60; less the deposit of 50 = 52.60; 21 % of it 11.05
        Assert.Contains("Total63.65", client.Text.Replace(" ", ""));
        Assert.Contains("is taken off: −50.00", client.Text);
        await client.Press("Issue invoice");
        var number = $"I-{DateTime.UtcNow.Year}-0002";
        await client.Press($"Credit {number}", ("Credit.Reason", "Half the time"), ("Credit.Lines[0].Quantity", "3"));
        Assert.Contains("has 2 pcs not given back yet, not 3", Assert.Single(client.Errors));
        Assert.Equal("3", client.Page.QuerySelector($"[name='Credit.Lines[0].Quantity']")!.GetAttribute("value"));
        await client.Press($"Credit {number}", ("Credit.Reason", "Half the time"), ("Credit.Lines[0].Quantity", ""), ("Credit.Amounts[0].Amount", "10"));
        Assert.Contains("Credit note C-", client.Notice);
        Assert.Contains("Still owed€51.55", client.Text);
        Assert.Contains("Taken back in part by C-", client.Text);
    }

    [Fact]
    public async Task Reverse_charge_is_set_up_chosen_refused_without_a_number_and_issued_with_an_electronic_invoice()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/profiles");
        await client.Press("Add profile", ("Input.Name", "Exempt work"), ("Input.Treatment", "Exempt"));
        Assert.StartsWith("The reason is empty", Assert.Single(client.Errors));
        await client.Press("Add profile", ("Input.Name", "Business abroad"), ("Input.Treatment", "ReverseCharge"));
        Assert.Equal("The profile “Business abroad” is added.", client.Notice);
        var profile = await app.WithDb(db => db.TaxProfiles.Select(row => row.Id).SingleAsync());
        var customer = await app.WithDb(db => db.Customers.Select(row => row.Id).SingleAsync());
        await client.Open($"/customers/{customer}/edit");
        await client.Press("Save changes", ("Input.TaxProfileId", profile.ToString()));

        await client.Open($"/repairs/{Number}/invoice");
        await client.Press("As worked");
        await client.Press("Issue invoice", ("Input.Lines[0].Text", "Labour"), ("Input.Lines[0].HighQuantity", "1"), ("Input.Lines[0].UnitPrice", "60"));
        Assert.StartsWith("Reverse charge needs the customer's tax number", Assert.Single(client.Errors));
        await client.Open($"/customers/{customer}/edit");
        await client.Press("Save changes", ("Input.TaxNumber", "DE 123 456 789"));
        await client.Open($"/repairs/{Number}/invoice");
        await client.Press("Issue invoice");
        Assert.Contains("is issued", client.Notice);

        var paper = await app.WithDb(db => db.Papers.AsNoTracking().SingleAsync());
        using var file = await client.Http.GetAsync($"/papers/{paper.Id}/e-invoice", TestContext.Current.CancellationToken);
        Assert.Equal("application/xml", file.Content.Headers.ContentType!.MediaType);
        Assert.EndsWith(".xml", file.Content.Headers.ContentDisposition!.FileName!.Trim('"'));
        var xml = Encoding.UTF8.GetString(await file.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
        Assert.Contains("<cbc:CompanyID>DE123456789</cbc:CompanyID>", xml);
        Assert.Contains("<cbc:ID>AE</cbc:ID>", xml);
        await client.Open($"/papers/{paper.Id}/read");
        Assert.Contains("The customer accounts for the tax", client.Text);
    }

    [Fact]
    public async Task Another_profile_is_looked_at_before_anything_is_issued()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await client.Open($"/repairs/{Number}/invoice");
        await client.Press("As worked");
        await client.Press("Keep draft", ("Input.Lines[0].Text", "Labour"), ("Input.Lines[0].HighQuantity", "1"), ("Input.Lines[0].UnitPrice", "60"));
        await app.WithDb(async db =>
        {
            db.TaxProfiles.Add(new TaxProfile { Name = "Export", Treatment = TaxTreatment.Export });
            return await db.SaveChangesAsync();
        });
        var export = await app.WithDb(db => db.TaxProfiles.Select(row => row.Id).SingleAsync());
        await client.Open($"/repairs/{Number}/invoice");
        await client.Press("Issue invoice", ("Input.TaxProfileId", export.ToString()));
        Assert.Contains("nothing is issued yet", client.Notice);
        Assert.Equal(0, await app.WithDb(db => db.Papers.CountAsync()));
        await client.Press("Issue invoice");
        Assert.Contains("is issued", client.Notice);
        Assert.Equal(0m, await app.WithDb(db => db.Invoices.Select(row => row.Tax).SingleAsync()));
    }

    [Theory]
    [InlineData("IE12", "has not the form of a tax number of IE")]
    [InlineData("IE1234567FA", "")]
    public async Task The_shops_own_number_is_checked_as_far_as_anything_is_published(string typed, string refusal)
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/tax");
        await client.Press("Save prices and tax", ("Input.TaxNumber", typed), ("Input.CashStep", "0.05"), ("Input.RegistrationNumber", "REG 774411"));
        Assert.Contains(refusal, client.Errors.Count > 0 ? client.Errors[0] : "");
        Assert.Equal(refusal.Length == 0 ? 1 : 0, await app.WithDb(db => db.Shop.CountAsync(shop => shop.CashStep == 0.05m && shop.RegistrationNumber == "REG 774411")));
        Assert.Contains("Check your local rules", client.Text);
    }
}
