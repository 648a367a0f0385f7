using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Repairs;

/// <summary>Booking in on one page. Buttons that only look something up come back with everything that was typed.</summary>
public sealed class NewModel(BookingService booking, CustomerService customers, CameraService cameras, PhotoService photoBook) : PageModel
{
    [BindProperty]
    public NewFields Input { get; set; } = new();

    public Found View { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid? customer, Guid? camera, CancellationToken ct)
    {
        var remembered = await booking.RememberedAsync(ct);
        Input = NewFields.Begin(remembered);
        Input.CameraId = camera;
        Input.CustomerId = customer ?? (camera is { } id ? (await cameras.GetAsync(id, ct)).Value?.OwnerId : null);
        await Load(ct);
        return Page();
    }

    /// <param name="act">Which button: book, find, somebody:id, nobody, this:id, another.</param>
    /// <param name="photos">Only sent on when booking; a look-up can't bring chosen files back.</param>
    /// <param name="ct"></param>
    public async Task<IActionResult> OnPostAsync(string? act, List<IFormFile> photos, CancellationToken ct)
    {
        if (Input.Turn(act ?? "book", ModelState))
            return await Look(ct);
        foreach (var missing in Input.Missing())
            this.Note(missing);
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => Load(ct));
        Input.UnderWarrantyOf = Input.UnderWarranty && Input.CameraId is { } id ? (await cameras.WarrantyAsync(id, ct))?.RepairId : null;
        var booked = await booking.BookAsync(Input.ToInput(), ct);
        if (booked.Value is { WasThere: false } fresh && await Keep(fresh.Number, photos, ct) is { } someRefused)
            return someRefused;
        return await this.Answer(booked, booked.Value?.WasThere == true ? "This form was booked already; nothing was booked twice." : null,
            done => RedirectToPage("Booked", new { done.Number }), () => Load(ct, booked.Failure as CustomerMayBeKnown, booked.Failure as CameraMayBeKnown));
    }

    /// <returns>Null when all photos are kept; else the photos page, which says which are not.</returns>
    private async Task<IActionResult?> Keep(string number, List<IFormFile> photos, CancellationToken ct)
    {
        var uploads = await Uploads.ReadAsync(photos, ct);
        if (uploads.Count == 0 || (await photoBook.AddAsync(number, uploads, ct)).Value is not { Refused.Count: > 0 } taken)
            return null;
        this.Tell($"Booked in as {number}, but not every photo was kept. {string.Join(' ', taken.Refused.Select(refused => refused.Message))}");
        return RedirectToPage("Photos", new { number });
    }

    private async Task<IActionResult> Look(CancellationToken ct)
    {
        foreach (var entry in ModelState.Values)
        {
            entry.Errors.Clear();
            entry.ValidationState = ModelValidationState.Skipped;
        }

        await Load(ct);
        return Page();
    }

    private async Task Load(CancellationToken ct, CustomerMayBeKnown? somebody = null, CameraMayBeKnown? something = null)
    {
        var customer = Input.CustomerId is { } customerId ? (await customers.GetAsync(customerId, ct)).Value : null;
        var camera = Input.CameraId is { } cameraId ? (await cameras.GetAsync(cameraId, ct)).Value : null;
        View = new Found(
            await booking.RememberedAsync(ct),
            customer,
            customer is null ? await customers.FindAsync(Input.FindCustomer, ct) : [],
            somebody?.Known ?? [],
            camera,
            camera is null && customer is not null ? await cameras.OfOwnerAsync(customer.Id, ct) : [],
            camera is null ? await cameras.FindAsync(Input.FindCamera, ct) : [],
            something?.Known,
            camera is null ? null : await cameras.WarrantyAsync(camera.Id, ct));
    }

    /// <summary>What was looked up for the form.</summary>
    public sealed record Found(
        Remembered Remembered, CustomerView? Customer, IReadOnlyList<CustomerLine> Customers, IReadOnlyList<KnownCustomer> Known,
        CameraView? Camera, IReadOnlyList<CameraLine> OwnersCameras, IReadOnlyList<CameraLine> Cameras, KnownCamera? KnownCamera,
        WarrantyOffer? Warranty);
}
