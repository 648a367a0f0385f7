using Microsoft.Playwright;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Browser.Tests.Scripts;

/// <summary>What goes wrong between a browser and the workshop's machine, and what the person sees of it.</summary>
public sealed class BadDays(OpenShop open, Chromium chromium) : IClassFixture<OpenShop>, IAsyncLifetime
{
    private readonly string folder = TestFolders.Create("bad-days");
    private IBrowserContext context = null!;
    private IPage page = null!;
    private MouseHands hands = null!;

    private string Findings => $"{open.Shop.Address}/repairs/{open.Repair}/findings";

    public async ValueTask InitializeAsync()
    {
        context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 390, Height = 844 }, StorageState = open.SignedIn });
        page = await context.NewPageAsync();
        hands = new MouseHands(page);
    }

    public async ValueTask DisposeAsync()
    {
        await context.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData(26, "has 26 MB; the most is 25 MB: send it smaller.")]
    [InlineData(31, "What was sent is larger than 30 MB, and nothing of it was kept.")]
    public async Task A_photo_that_is_too_large_is_answered_with_a_page_and_not_with_a_broken_connection(int megabytes, string sentence)
    {
        var file = Path.Combine(folder, "huge.jpg");
        var picture = await File.ReadAllBytesAsync(Seed.Photo("camera-worn.jpg"), TestContext.Current.CancellationToken);
        await using (var huge = File.Create(file))
        {
            await huge.WriteAsync(picture, TestContext.Current.CancellationToken);
            huge.SetLength(megabytes * 1_000_000L + (megabytes > 30 ? 2_000_000 : 0));
        }
        await hands.GoAsync($"{open.Shop.Address}/repairs/{open.Repair}/photos");
        await page.GetByLabel("Choose photos").SetInputFilesAsync(file);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add photos", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync(sentence, new() { Timeout = 60_000 });
    }

    [Fact]
    public async Task Text_sent_into_a_dead_line_is_offered_again_whatever_page_is_opened_in_between()
    {
        await hands.GoAsync(Findings);
        await hands.TypeAsync("Component", "Cocking lever");
        await hands.TypeAsync("What was found", "Bent upwards, rubs on the plate.");
        await context.SetOfflineAsync(true);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add finding", Exact = true }).ClickAsync();
        await page.WaitForURLAsync("chrome-error://**", new() { WaitUntil = WaitUntilState.Commit }); // a browser's own page may never say that it is loaded
        await context.SetOfflineAsync(false);
        await hands.GoAsync($"{open.Shop.Address}/bench");
        await hands.GoAsync(Findings);
        await page.GetByRole(AriaRole.Button, new() { Name = "Bring it back" }).ClickAsync();
        await Assertions.Expect(hands.Field("What was found")).ToHaveValueAsync("Bent upwards, rubs on the plate.");
        await hands.PressAsync("Add finding");
        await Assertions.Expect(page.Locator(".findings")).ToContainTextAsync("Cocking lever");
        await hands.GoAsync(Findings);
        await Assertions.Expect(page.GetByText("Text typed here earlier")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Going_back_after_booking_shows_an_empty_form_and_not_half_of_what_was_booked()
    {
        await hands.GoAsync($"{open.Shop.Address}/repairs/new");
        await hands.TypeAsync("Name", "Odile Fontvert");
        await hands.TypeAsync("Maker", "Tarnwick");
        await hands.TypeAsync("Complaint", "Wind-on slips.");
        await hands.PressAsync("Book in");
        await page.GoBackAsync();
        foreach (var field in new[] { "Name", "Maker", "Complaint" })
            await Assertions.Expect(hands.Field(field)).ToHaveValueAsync("");
        await Assertions.Expect(page.GetByText("Text typed here earlier")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Text_typed_and_left_with_the_back_button_is_offered_on_return()
    {
        await hands.GoAsync($"{open.Shop.Address}/bench");
        await hands.GoAsync(Findings);
        await hands.TypeAsync("Component", "Winding shaft");
        await page.GoBackAsync();
        await page.GoForwardAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Bring it back" }).ClickAsync();
        await Assertions.Expect(hands.Field("Component")).ToHaveValueAsync("Winding shaft");
    }
}
