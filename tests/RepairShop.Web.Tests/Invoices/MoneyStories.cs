using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Invoices;

/// <summary>From the offer to the credit note, as a person without script goes through it.</summary>
public sealed class MoneyStories(PostgresServer server)
{
    private const string Number = "2026-0001";

    private static async Task<ShopApp> Start(PostgresServer server, string publicAddress = "http://localhost")
    {
        var app = await ShopApp.Start(server, ("Mail:Host", ""));
        await app.WithDb(async db =>
        {
            var shop = await db.Shop.SingleAsync();
            (shop.Name, shop.Currency, shop.LabourRate, shop.TaxRegistered) = ("Tern Street Cameras", "EUR", 60, true);
            (shop.Locale, shop.TimeZone, shop.PublicAddress) = ("en-IE", "Europe/Dublin", publicAddress);
            var customer = new Customer { Name = "Łukasz <b>Example</b>", Email = "lukasz@example.com", CreatedAt = DateTimeOffset.UtcNow };
            var camera = new Camera { OwnerId = customer.Id, Maker = "Example Works", Model = "Model 3", CreatedAt = DateTimeOffset.UtcNow };
            db.TaxRates.Add(new TaxRate { Name = "Standard", Percent = 21, IsDefault = true });
            db.AddRange(customer, camera, new Repair
            {
                Number = Number,
                CustomerId = customer.Id,
                CameraId = camera.Id,
                BookedAt = DateTimeOffset.UtcNow.AddDays(-1),
                Complaint = "Slow speeds drag",
            });
            return await db.SaveChangesAsync();
        });
        return app;
    }

    /// <summary>1 to 2 hours at 60 and 21 %: 72.60 to 145.20.</summary>
    private static async Task Send(FormClient client)
    {
        await client.Open($"/repairs/{Number}/estimate");
        await client.Press("Send estimate", ("Input.WhatWasSeen", "Old oil in the escapement"), ("Input.StripDownCharge", "25"));
        Assert.Empty(client.Errors);
    }

    private static Task<string> Link(ShopApp app) => app.WithDb(async db =>
        "/answer/" + (await db.Outbox.OrderByDescending(mail => mail.Id).Select(mail => mail.Body).FirstAsync()).Split("/answer/")[1].Split('\n')[0].Trim());

    [Fact]
    public async Task An_offer_is_approved_by_link_billed_paid_in_parts_and_taken_back()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await Send(client);
        Assert.Equal($"/repairs/{Number}/estimate/1", client.Url);
        Assert.Equal($"Estimate {Number}-E1 goes out by e-mail.", client.Notice);

        using (var customer = app.Client())
        {
            await customer.Open(await Link(app));
            Assert.Contains("€145.20", customer.Text);
            await customer.Press("Approve up to €145.20", ("Input.Name", "Łukasz"));
            Assert.Equal("Thank you", customer.Heading);
        }

        await client.Open($"/repairs/{Number}/invoice");
        await client.Press("As estimated, €72.60");
        await client.Press("Issue invoice", ("Input.Lines[0].HighQuantity", "2.5"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains("comes to 181.50 EUR, but the customer approved 145.20 EUR", Assert.Single(client.Errors));
        Assert.Equal("2.5", client.Value("Input.Lines[0].HighQuantity"));

        await client.Open($"/repairs/{Number}/estimate/1");
        await client.Press("Record consent", ("Consent.UpTo", "200"), ("Consent.Reason", "A spring is broken"));
        Assert.Equal("The consent is recorded.", client.Notice);

        await client.Open($"/repairs/{Number}/invoice");
        await client.Press("Issue invoice");
        Assert.Contains("is issued and goes out by e-mail", client.Notice);
        await client.Press("Record payment", ("Payment.Amount", "100"));
        Assert.Contains("Still owed€81.50", client.Text);
        await client.Press("Record payment", ("Payment.Amount", "81.51"));
        Assert.Contains("is more than the 81.50 EUR still owed", Assert.Single(client.Errors));
        await client.Press("Record payment", ("Payment.Amount", "81.50"));
        Assert.Contains("Settled.", client.Text);

        var number = $"I-{DateTime.UtcNow.Year}-0001";
        await client.Press($"Credit {number}", ("Credit.Reason", "Wrong address"));
        Assert.Contains("Credit note C-", client.Notice);
        Assert.Contains("Has to go back€181.50", client.Text);
        await client.Press("Record money given back", ("Payment.Amount", "181.50"));
        Assert.DoesNotContain("Has to go back€", client.Text);
    }

    [Fact]
    public async Task The_back_button_does_not_send_the_same_offer_as_a_new_revision()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        using var behind = await app.SignedIn();
        await behind.Open($"/repairs/{Number}/estimate");
        await Send(client);
        await behind.Press("Send estimate", ("Input.WhatWasSeen", "Old oil in the escapement"), ("Input.StripDownCharge", "25"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, behind.Status);
        Assert.StartsWith("Revision 1 was sent and says the same", Assert.Single(behind.Errors));
        Assert.Equal("Old oil in the escapement", behind.Value("Input.WhatWasSeen"));
        Assert.Equal((1, 1), await app.WithDb(async db => (await db.Estimates.CountAsync(), await db.Outbox.CountAsync())));
    }

    [Fact]
    public async Task Lines_are_added_moved_and_removed_without_script_and_nothing_typed_is_lost()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await client.Open($"/repairs/{Number}/estimate");
        await client.Press("Add line", ("Input.Lines[1].Text", "Spring"), ("Input.Lines[1].UnitPrice", "12"), ("Input.NeedsConsent", "Drilling"));
        Assert.Equal(("Labour", "Spring", ""), (client.Value("Input.Lines[0].Text"), client.Value("Input.Lines[1].Text"), client.Value("Input.Lines[2].Text")));
        await client.Press("↓");
        Assert.Equal(("Spring", "Labour", "Drilling"), (client.Value("Input.Lines[0].Text"), client.Value("Input.Lines[1].Text"), client.Value("Input.NeedsConsent")));
        await client.Press("Remove");
        await client.Press("Keep draft");
        Assert.Equal("The draft is kept.", client.Notice);
        Assert.Equal("Labour", await app.WithDb(db => db.EstimateLines.Select(line => line.Text).SingleAsync()));
        await client.Press("Keep draft", ("Input.Lines[0].HighQuantity", "many"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Equal("many", client.Value("Input.Lines[0].HighQuantity"));
    }

    [Fact]
    public async Task An_invoice_of_one_repair_cannot_be_moved_under_the_number_of_another()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        var other = await Work.OneRepair.BookedIn(app, "2026-0002");
        await client.Open($"/repairs/{Number}/invoice");
        await client.Press("As worked");
        var draft = client.Value("Input.Id")!;
        var token = client.Page.QuerySelector("main [name='__RequestVerificationToken']")!.GetAttribute("value")!;
        foreach (var (handler, field) in new[]
        {
            ("Draft&op=discard", "Input.Id"), ("Pay", "Payment.Invoice"), ("Refund", "Payment.Invoice"), ("Credit", "Credit.Invoice"), ("WriteOff", "WriteOff.Invoice"),
            ("Hold", "Hold.Invoice"), ("LiftHold", "invoice"), ("TakeBack", "invoice"), ("UseCredit", "invoice"), ("Keep", "invoice"), ("Reissue", "invoice"), ("UndoWriteOff", "invoice"),
        })
        {
            foreach (var number in new[] { other, "no-such-repair" })
            {
                await client.Post($"/repairs/{number}/invoice?handler={handler}", [new(field, draft), new("__RequestVerificationToken", token)]);
                Assert.True(client.Status == HttpStatusCode.NotFound, $"{handler} at {number} answered {client.Status}.");
            }
        }
        Assert.Equal(1, await app.WithDb(db => db.Invoices.CountAsync()));
    }

    [Fact]
    public async Task A_customers_form_without_an_answer_in_it_answers_nothing()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await Send(client);
        using var customer = app.Client();
        var link = await Link(app);
        await customer.Open(link);
        var token = customer.Page.QuerySelector("main [name='__RequestVerificationToken']")!.GetAttribute("value")!;
        foreach (var answer in new[] { "", "7", "Perhaps", null })
        {
            List<KeyValuePair<string, string>> sent = [new("Input.Name", "Łukasz"), new("__RequestVerificationToken", token)];
            if (answer is not null)
                sent.Add(new("answer", answer));
            await customer.Post(link, sent);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, customer.Status);
            Assert.Equal(["Say whether you approve or decline: press one of the two buttons."], customer.Errors);
        }
        Assert.Null(await app.WithDb(db => db.Estimates.Select(row => row.Answer).SingleAsync()));
    }

    [Fact]
    public async Task The_customers_page_is_kept_from_caches_and_search_and_says_the_same_of_every_bad_link()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await Send(client);
        using var customer = app.Client();
        await customer.Open(await Link(app));
        Assert.True(customer.Response.Headers.CacheControl!.NoStore);
        Assert.Contains("noindex", Assert.Single(customer.Response.Headers.GetValues("X-Robots-Tag")));
        Assert.Equal("same-origin", Assert.Single(customer.Response.Headers.GetValues("Referrer-Policy")));
        await customer.Press("Approve up to €145.20", ("Input.Name", ""));
        Assert.StartsWith("Your name is empty", Assert.Single(customer.Errors));
        foreach (var address in new[] { "/answer/x", "/answer/" + new string('A', 43) })
        {
            await customer.Open(address);
            Assert.Equal(HttpStatusCode.NotFound, customer.Status);
            Assert.Contains(AnswerLinkDead.Sentence, customer.Text);
        }
        for (var trial = 0; trial < RepairShop.Web.Access.AnswerLimit.PerAddress; trial++)
            await customer.Open("/answer/x");
        Assert.Equal(HttpStatusCode.TooManyRequests, customer.Status);
    }

    [Fact]
    public async Task Every_paper_comes_as_pdf_with_its_hash_and_as_a_page()
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn();
        await Send(client);
        await client.Open($"/repairs/{Number}/papers");
        foreach (var kind in new[] { "Claim tag label", "Claim tag page", "Bench sheet", "Service record", "Service record, and e-mail it" })
        {
            await client.Press(kind);
            Assert.Equal(HttpStatusCode.OK, client.Status);
            Assert.Contains(" is made", client.Notice);
        }
        var papers = await app.WithDb(db => db.Papers.AsNoTracking().ToListAsync());
        Assert.Equal(6, papers.Count);
        foreach (var paper in papers)
        {
            using var pdf = await client.Http.GetAsync($"/papers/{paper.Id}", TestContext.Current.CancellationToken);
            Assert.Equal($"\"{paper.FileHash}\"", pdf.Headers.ETag!.Tag);
            Assert.Equal("%PDF"u8.ToArray(), (await pdf.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken))[..4]);
            Assert.EndsWith(".pdf", pdf.Content.Headers.ContentDisposition!.FileName!.Trim('"'));
            await client.Open($"/papers/{paper.Id}/read");
            Assert.Equal(HttpStatusCode.OK, client.Status);
            Assert.Contains(paper.Number, client.Text);
            Assert.DoesNotContain("<b>Example", client.Page.Body!.InnerHtml);
        }
        await client.Open($"/repairs/{Number}");
        Assert.Contains("Claim tag", client.Text);
        await client.Open("/post");
        Assert.Contains("lukasz@example.com", client.Text);
    }

    [Theory]
    [InlineData(Roles.Bench, HttpStatusCode.Forbidden)]
    [InlineData(Roles.Counter, HttpStatusCode.OK)]
    public async Task Money_is_for_the_counter(string role, HttpStatusCode status)
    {
        await using var app = await Start(server);
        using var client = await app.SignedIn(role);
        await client.Open($"/repairs/{Number}/invoice");
        Assert.Equal(status, client.Status);
    }
}
