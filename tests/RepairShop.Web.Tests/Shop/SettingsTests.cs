using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Shop;

public class SettingsTests(PostgresServer server)
{
    private static readonly (string, string)[] Filled =
    [
        ("Input.Name", "Tern Street Cameras"), ("Input.Street", "4 Tern Street"), ("Input.City", "Wexmouth"), ("Input.CountryCode", "GB"),
        ("Input.Email", "bench@example.com"), ("Input.Phone", "020 7946 0123"),
    ];

    [Fact]
    public async Task A_new_shop_is_told_where_to_start_and_a_saved_one_stands_in_the_header()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop");
        Assert.StartsWith("Start here.", client.Notice);
        await client.Press("Save the shop", Filled);
        Assert.Equal("The shop is saved.", client.Notice);
        Assert.Equal("Tern Street Cameras", client.Page.QuerySelector(".shop-name")!.TextContent);
        Assert.Equal("020 7946 0123", client.Value("Input.Phone"));
    }

    [Theory]
    [InlineData("Input.Iban", "GB82 WEST 1234 5698 7654 33")]
    [InlineData("Input.PublicAddress", "book")]
    [InlineData("Input.Email", "no address")]
    [InlineData("Input.Name", "")]
    [InlineData("Input.CountryCode", "")]
    public async Task A_wrong_value_is_refused_beside_its_field_and_all_that_was_typed_stays(string field, string value)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop");
        await client.Press("Save the shop", [.. Filled.Where(one => one.Item1 != field), (field, value)]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Single(client.Errors);
        var error = client.Page.QuerySelector($"#{field.Replace('.', '_')}-error")!;
        Assert.Equal(client.Errors[0], error.TextContent);
        Assert.Equal("true", client.Page.QuerySelector($"[name='{field}']")!.GetAttribute("aria-invalid"));
        Assert.Equal(value, client.Value(field));
        Assert.Equal("4 Tern Street", client.Value("Input.Street"));
    }

    [Fact]
    public async Task Money_and_numbers_follow_the_shops_locale()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop");
        await client.Press("Save the shop", [.. Filled, ("Input.Locale", "de-DE"), ("Input.Currency", "EUR"), ("Input.TimeZone", "Europe/Berlin")]);
        Assert.Contains("1.234,50 €", client.Text);
        await client.Open("/shop/tax");
        await client.Press("Save prices and tax", ("Input.LabourRate", "62.5"), ("Input.MinimumCharge", "40,00"));
        Assert.Equal("62,5", client.Value("Input.LabourRate"));
        Assert.Equal(62.5m, await app.WithDb(db => db.Shop.Select(shop => shop.LabourRate).SingleAsync()));
    }

    [Fact]
    public async Task A_number_that_can_be_read_two_ways_is_asked_about()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/tax");
        await client.Press("Save prices and tax", ("Input.LabourRate", "1,250"));
        Assert.Equal(["Labour rate: “1,250” can be read two ways: write 1250 or 1.250."], client.Errors);
        Assert.Equal("1,250", client.Value("Input.LabourRate"));
    }

    [Fact]
    public async Task Two_people_saving_the_same_page_see_both_values_and_the_second_may_save_again()
    {
        await using var app = await ShopApp.Start(server);
        using var one = await app.SignedIn();
        using var other = await app.SignedIn();
        await one.Open("/shop");
        await other.Open("/shop");
        await one.Press("Save the shop", Filled);
        await other.Press("Save the shop", [.. Filled.Where(field => field.Item1 != "Input.Name"), ("Input.Name", "Another Name")]);
        Assert.Contains("Somebody else changed this while you were typing.", other.Errors[0]);
        var clash = other.Page.QuerySelector(".changed")!.TextContent;
        Assert.Contains("Tern Street Cameras", clash);
        Assert.Contains("Another Name", clash);
        Assert.Equal("Another Name", other.Value("Input.Name"));
        await other.Press("Save the shop");
        Assert.Equal("Another Name", other.Page.QuerySelector(".shop-name")!.TextContent);
    }

    [Fact]
    public async Task A_tax_rate_is_added_becomes_usual_and_is_retired_but_never_edited()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/tax");
        await client.Press("Add rate", ("Rate.Name", "VAT 20 %"), ("Rate.Percent", "20"));
        Assert.Contains("usual rate", client.Text);
        await client.Press("Add rate", ("Rate.Name", "Reduced 5 %"), ("Rate.Percent", "5"));
        await client.Press("Retire VAT 20 %");
        Assert.Equal(["“VAT 20 %” is the rate new lines start with: make another the usual one first, then retire this."], client.Errors);
        await client.Press("Make usual Reduced 5 %");
        await client.Press("Retire VAT 20 %");
        Assert.Contains("retired", client.Text);
        await client.Press("Add rate", ("Rate.Name", "reduced 5 %"), ("Rate.Percent", "5"));
        Assert.Equal(["There is already a rate called “reduced 5 %”: give this one another name, or retire the other first."], client.Errors);
    }

    [Fact]
    public async Task A_registered_shop_needs_its_tax_number()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/tax");
        await client.Press("Save prices and tax", ("Input.TaxRegistered", "true"));
        Assert.Equal(["A shop registered for tax prints its tax number on invoices: fill it in."], client.Errors);
    }

    [Fact]
    public async Task Checks_are_added_moved_retired_and_brought_back()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/checks");
        await client.Press("Add check", ("Check.Name", "Bellows"), ("Check.Unit", ""));
        await client.Press("Move up Bellows");
        var names = client.Page.QuerySelectorAll("#list tbody th").Select(cell => cell.TextContent.Trim()).ToList();
        Assert.Equal(names.Count - 2, names.IndexOf("Bellows"));
        await client.Press("Retire Bellows");
        Assert.Contains("Bellows (retired)", client.Text);
        await client.Press("Add check", ("Check.Name", "bellows"));
        Assert.Equal(["“bellows” is on the list already: change that one, or bring it back if it is retired."], client.Errors);
        await client.Press("Bring back Bellows");
        Assert.DoesNotContain("(retired)", client.Text);
    }

    [Theory]
    [InlineData("1/125", true)]
    [InlineData("0,008 s", true)]
    [InlineData("1/0", false)]
    [InlineData("abc", false)]
    public async Task The_boundary_of_the_limits_is_a_mark(string mark, bool isOne)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/checks");
        await client.Press("Save limits", ("Input.Boundary", mark));
        Assert.Equal(isOne ? HttpStatusCode.OK : HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Equal(isOne ? "1/125" : mark, client.Value("Input.Boundary"));
    }

    [Fact]
    public async Task A_letter_is_previewed_with_made_up_values_before_it_is_saved()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/texts/Invoice");
        await client.Press("Preview", ("Input.Subject", "Your bill {paper}"), ("Input.Body", "Dear {customer}, {total} please."));
        Assert.Contains("Dear Ines Halloway, €238.00 please.", client.Text);
        await client.Open("/shop/texts/Invoice");
        Assert.NotEqual("Your bill {paper}", client.Value("Input.Subject"));
        await client.Press("Save letter", ("Input.Subject", "Your bill {papre}"));
        Assert.Equal(["{papre} has no meaning here: use {customer}, {camera}, {number}, {shop}, {paper}, {total}, {due}, or take it out."], client.Errors);
    }

    [Theory]
    [InlineData("R{number:000}", null)]
    [InlineData("{year}", "Repair")]
    [InlineData("{number}/{year}", "Repair")]
    public async Task A_number_format_holds_one_number(string format, string? refused)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop/numbers");
        await client.Press("Save number formats", ("Input.Repair", format));
        if (refused is null)
            Assert.Contains("Like R042", client.Text);
        else
            Assert.StartsWith($"“{format}” is not a number format", client.Page.QuerySelector($"#Input_{refused}-error")!.TextContent);
    }

    [Fact]
    public async Task The_audit_trail_tells_who_changed_what_from_what()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn();
        await client.Open("/shop");
        await client.Press("Save the shop", Filled);
        await client.Open("/shop/audit?entity=ShopSettings");
        var row = client.Page.QuerySelector("tbody tr")!.TextContent;
        Assert.Contains("Mara Quill", row);
        Assert.Contains("Tern Street Cameras", row);
        await client.Open("/shop/audit?from=2001-01-01&until=2001-01-02");
        Assert.Contains("Nothing was changed in this range.", client.Text);
        Assert.True(await app.WithDb(db => db.Audit.AnyAsync(entry => entry.By != null)));
    }
}
