using Microsoft.EntityFrameworkCore;
using RepairShop.Testing;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.Forms;

/// <summary>What every form does with what is typed into it, whichever page it stands on.</summary>
public sealed class TypedTextStories(PostgresServer server)
{
    [Theory]
    [InlineData("Blades\0 oiled", "Blades oiled")]
    [InlineData("\u0001Blades\u0007 oiled\u001b", "Blades oiled")]
    [InlineData("Blades oiled\uFFFE", "Blades oiled")]
    public async Task Signs_that_nobody_types_are_left_out_and_the_rest_is_kept(string typed, string kept)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/hours");
        await client.Press("Add hours", ("Input.Length", "0:20"), ("Input.Activity", typed));
        Assert.Equal(kept, await app.WithDb(db => db.LabourEntries.Select(entry => entry.Activity).SingleAsync()));
    }

    [Fact]
    public async Task A_form_with_a_file_in_it_takes_them_out_too()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("counter");
        await client.Open("/repairs/new");
        await client.Upload("Book in", "photos", "none.jpg", [],
            ("Input.Customer.Name", "Ines\0 Marchetti"), ("Input.Camera.Model", "Pelter\u0002"), ("Input.Facts.Complaint", "Hangs\0\nat 1 s"));
        var repair = await app.WithDb(db => db.Repairs.SingleAsync());
        Assert.Equal("Hangs\nat 1 s", repair.Complaint);
        Assert.Equal("Ines Marchetti", await app.WithDb(db => db.Customers.Select(customer => customer.Name).SingleAsync()));
    }

    [Fact]
    public async Task Text_that_comes_back_with_an_error_comes_back_without_them()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/hours");
        await client.Press("Add hours", ("Input.Length", "abc"), ("Input.Activity", "Blades\0 oiled\u0001"));
        Assert.Equal("Blades oiled", client.Value("Input.Activity"));
    }

    [Fact]
    public async Task A_day_left_empty_is_named()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/hours");
        await client.Press("Add hours", ("Input.Day", ""), ("Input.Length", "0:20"));
        Assert.Equal("Day is empty: fill it in.", Assert.Single(client.Errors));
    }

    [Theory]
    [InlineData("09:30", "", "Input_To-error", "To is empty")]
    [InlineData("", "09:30", "Input_From-error", "From is empty")]
    public async Task A_time_without_its_other_is_said_where_it_is_missing(string from, string to, string place, string says)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/hours");
        await client.Press("Add hours", ("Input.From", from), ("Input.To", to));
        Assert.StartsWith(says, client.Page.GetElementById(place)?.TextContent ?? "", StringComparison.Ordinal);
    }

    [Fact]
    public async Task Sentences_stand_in_the_order_of_the_form()
    {
        await using var app = await ShopApp.StartEmpty(server);
        using var client = app.Client();
        await client.Open("/first-start");
        await client.Press("Create the owner’s account", ("Input.Code", "x"));
        Assert.Equal(
            ["Your name is empty: fill it in.", "E-mail is empty: fill it in.", "Password is empty: fill it in.", "Password again is empty: fill it in."],
            client.Errors);
    }

    [Fact]
    public async Task A_look_up_at_the_counter_brings_no_alarm()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("counter");
        await client.Open("/repairs/new");
        await client.Press("Find customer", ("Input.FindCustomer", "Quill"));
        Assert.Null(client.Page.QuerySelector("[role=alert]"));
    }
}
