using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Repairs;

/// <summary>Booking in as a person without script goes through it, with the slips people make at a counter.</summary>
public sealed class BookingStories(PostgresServer server)
{
    private static readonly (string Name, string Value)[] Ines =
    [
        ("Input.Customer.Name", "Ines Marchetti"), ("Input.Customer.Email", "ines@example.com"), ("Input.Camera.Maker", "Orrevale"),
        ("Input.Camera.Model", "Pelter"), ("Input.Camera.BodySerial", "218446"), ("Input.Facts.Complaint", "Slow speeds hang"),
        ("Input.Facts.ConsentBy", "Ines Marchetti"), ("Input.Facts.ConsentHow", "InPerson"),
    ];

    private static (string Name, string Value)[] Change(params (string Name, string Value)[] changed) =>
        [.. Ines.Where(one => changed.All(other => other.Name != one.Name)), .. changed];

    private static async Task<(ShopApp App, FormClient Client)> Start(PostgresServer server)
    {
        var app = await ShopApp.Start(server);
        return (app, await app.SignedIn("counter"));
    }

    [Fact]
    public async Task A_form_sent_twice_is_booked_once_and_the_second_answer_says_so()
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        await client.Open("/repairs/new");
        var key = client.Value("Input.FormKey")!;
        await client.Press("Book in", Ines);
        var booked = client.Url;
        Assert.EndsWith("/booked", booked, StringComparison.Ordinal);
        await client.Open("/repairs/new");
        await client.Press("Book in", Change(("Input.FormKey", key)));
        Assert.Equal((booked, "This form was booked already; nothing was booked twice."), (client.Url, client.Notice));
        Assert.Equal((1, 1), await app.WithDb(async db => (await db.Repairs.CountAsync(), await db.Customers.CountAsync())));
    }

    [Fact]
    public async Task A_number_with_capitals_in_it_leads_to_its_repair()
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        await app.WithDb(db => db.Shop.ExecuteUpdateAsync(set => set.SetProperty(shop => shop.RepairNumberFormat, "Rep-{number:000}")));
        await client.Open("/repairs/new");
        await client.Press("Book in", Ines);
        Assert.Equal((HttpStatusCode.OK, "/repairs/Rep-001/booked"), (client.Status, client.Url));
    }

    [Fact]
    public async Task A_customer_who_may_be_known_is_offered_picked_with_one_press_and_nothing_typed_is_lost()
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        await client.Open("/repairs/new");
        await client.Press("Book in", Ines);
        await client.Open("/repairs/new");
        await client.Press("Book in", Change(("Input.Customer.Name", "I. Marchetti"), ("Input.Camera.BodySerial", "900001"), ("Input.Facts.Shelf", "C4")));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains("same e-mail", client.Text);
        Assert.Equal(("I. Marchetti", "900001", "C4"), (client.Value("Input.Customer.Name"), client.Value("Input.Camera.BodySerial"), client.Value("Input.Facts.Shelf")));
        await client.Press("Ines Marchetti");
        Assert.Equal(("900001", "Slow speeds hang", "C4"), (client.Value("Input.Camera.BodySerial"), client.Value("Input.Facts.Complaint"), client.Value("Input.Facts.Shelf")));
        await client.Press("Book in");
        Assert.EndsWith("/booked", client.Url, StringComparison.Ordinal);
        Assert.Equal((2, 1), await app.WithDb(async db => (await db.Repairs.CountAsync(), await db.Customers.CountAsync())));
    }

    [Fact]
    public async Task A_returning_camera_shows_its_history_and_the_warranty_is_linked()
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        await client.Open("/repairs/new");
        await client.Press("Book in", Ines);
        var first = await app.WithDb(async db =>
        {
            await db.Repairs.ExecuteUpdateAsync(set => set.SetProperty(row => row.ReturnedAt, DateTimeOffset.UtcNow.AddDays(-1)));
            return await db.Repairs.AsNoTracking().SingleAsync();
        });
        await client.Open("/repairs/new");
        await client.Press("Find camera", ("Input.FindCamera", "218446"));
        await client.Press("Orrevale Pelter");
        Assert.Contains("It has been here before", client.Text);
        Assert.Contains(first.Number, client.Text);
        Assert.Contains($"Under warranty of {first.Number}", client.Text);
        await client.Press("Find customer", ("Input.FindCustomer", "marchetti"));
        await client.Press("Ines Marchetti");
        await client.Press("Book in", ("Input.Facts.Complaint", "Hangs again"), ("Input.Facts.ConsentBy", "Ines"), ("Input.Facts.ConsentHow", "Phone"));
        Assert.EndsWith("/booked", client.Url, StringComparison.Ordinal);
        Assert.Equal(first.Id, await app.WithDb(db => db.Repairs.Where(row => row.Id != first.Id).Select(row => row.WarrantyOfId).SingleAsync()));
    }

    [Fact]
    public async Task Two_tabs_changing_one_booking_see_both_values()
    {
        var (app, one) = await Start(server);
        await using var _ = app;
        using var __ = one;
        using var other = await app.SignedIn();
        await one.Open("/repairs/new");
        await one.Press("Book in", Ines);
        var edit = one.Url.Replace("/booked", "/edit", StringComparison.Ordinal);
        await one.Open(edit);
        await other.Open(edit);
        await one.Press("Save changes", ("Input.Shelf", "A1"));
        Assert.Equal("The booking is changed.", one.Notice);
        await other.Press("Save changes", ("Input.Shelf", "D9"));
        Assert.Contains("A1", other.Page.QuerySelector(".changed")!.TextContent);
        Assert.Contains("D9", other.Page.QuerySelector(".changed")!.TextContent);
        Assert.Equal("D9", other.Value("Input.Shelf"));
        await other.Press("Save changes");
        Assert.Equal("D9", await app.WithDb(db => db.Repairs.Select(row => row.Shelf).SingleAsync()));
    }

    [Theory]
    [InlineData("Input.Facts.Complaint", "", "complaint")]
    [InlineData("Input.Facts.Complaint", " \u0007\u200b ", "complaint")]
    [InlineData("Input.Facts.DeclaredValue", "a lot", "a lot")]
    [InlineData("Input.Facts.DeclaredValue", "-5", "Declared value")]
    [InlineData("Input.Facts.WantedBy", "2026-02-30", "Wanted by")]
    [InlineData("Input.Facts.ConsentOn", "2999-01-01", "agreed")]
    [InlineData("Input.Camera.Typed", "1/0", "1/0")]
    [InlineData("Input.Customer.Email", "not an address", "mail")]
    public async Task What_cannot_be_taken_is_told_at_the_field_and_everything_typed_stays(string field, string value, string named)
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        await client.Open("/repairs/new");
        var name = client.Page.QuerySelector($"main [name='{field}']") is null ? MarksField(client) : field;
        await client.Press("Book in", Change((name, value)));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains(named, string.Join(' ', client.Errors), StringComparison.OrdinalIgnoreCase);
        Assert.Equal("Ines Marchetti", client.Value("Input.Customer.Name"));
        Assert.Equal("218446", client.Value("Input.Camera.BodySerial"));
        Assert.Equal(value.Replace("\a", "", StringComparison.Ordinal).Trim(), client.Value(name)!.Trim());
        Assert.Equal(0, await app.WithDb(db => db.Repairs.CountAsync()));
    }

    [Fact]
    public async Task Overlong_text_is_told_with_its_field_and_comes_back_whole()
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        var text = new string('x', 4001);
        await client.Open("/repairs/new");
        await client.Press("Book in", Change(("Input.Facts.Complaint", text), ("Input.Camera.Model", new string('y', 500))));
        Assert.Contains(client.Errors, error => error.Contains("Complaint", StringComparison.Ordinal) && error.Contains("4000", StringComparison.Ordinal));
        Assert.Contains(client.Errors, error => error.Contains("Model", StringComparison.Ordinal));
        Assert.Equal(text, client.Value("Input.Facts.Complaint"));
    }

    [Theory]
    [InlineData("notes.jpg", "text", "“notes.jpg” is not a picture")]
    [InlineData("phone.heic", "heic", "“phone.heic” is a HEIC picture")]
    [InlineData("half.jpg", "cut", "“half.jpg” is damaged or was cut off")]
    [InlineData("huge.jpg", "26MB", "“huge.jpg” has 26 MB; the most is 25 MB")]
    public async Task A_file_that_is_no_photo_is_named_with_what_to_do_and_the_camera_is_booked_all_the_same(string file, string kind, string sentence)
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        var picture = await File.ReadAllBytesAsync(Seed.Photo("camera-worn.jpg"), TestContext.Current.CancellationToken);
        var bytes = kind switch
        {
            "text" => Encoding.UTF8.GetBytes("Shopping: oil, rags"),
            "heic" => [0, 0, 0, 24, .. "ftypheic"u8, 0, 0, 0, 0, .. "mif1heic"u8],
            "cut" => picture[..(picture.Length / 2)],
            _ => [.. picture, .. new byte[26_000_000 - picture.Length]],
        };
        await client.Open("/repairs/new");
        await client.Upload("Book in", "photos", file, bytes, Ines);
        Assert.Contains("Booked in as", client.Notice);
        Assert.Contains(sentence, client.Notice);
        Assert.Equal((1, 0), await app.WithDb(async db => (await db.Repairs.CountAsync(), await db.Photos.CountAsync())));
    }

    private static string MarksField(FormClient client) =>
        client.Page.QuerySelector("main input[placeholder*='1/25']")!.GetAttribute("name")!;

    [Fact]
    public async Task An_empty_form_is_told_all_it_lacks_at_once_and_each_where_it_lacks()
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        await client.Open("/repairs/new");
        await client.Press("Book in");
        Assert.StartsWith("Name is empty", client.Page.GetElementById("Input_Customer_Name-error")!.TextContent);
        Assert.StartsWith("Maker and model are both empty", client.Page.GetElementById("Input_Camera_Model-error")!.TextContent);
        Assert.StartsWith("Complaint is empty", client.Page.GetElementById("Input_Facts_Complaint-error")!.TextContent);
        Assert.Equal(3, client.Errors.Count);
    }

    [Theory]
    [InlineData("Input.Customer.Email", "nobody", "E-mail")]
    [InlineData("Input.Customer.Phone", "none", "Phone")]
    [InlineData("Input.Camera.MarkedSpeeds", "1/0", "“1/0”")]
    [InlineData("Input.Facts.WantedBy", "2001-01-01", "Wanted by")]
    [InlineData("Input.Facts.DeclaredValue", "-5", "Declared value")]
    public async Task A_rule_of_the_workshop_is_told_at_the_field_that_breaks_it(string field, string typed, string says)
    {
        var (app, client) = await Start(server);
        await using var _ = app;
        using var __ = client;
        await client.Open("/repairs/new");
        await client.Press("Book in", Change((field, typed)));
        Assert.StartsWith(says, client.Page.GetElementById(field.Replace('.', '_') + "-error")?.TextContent.Trim() ?? "nothing there", StringComparison.Ordinal);
        Assert.Equal(typed, client.Value(field));
    }
}
