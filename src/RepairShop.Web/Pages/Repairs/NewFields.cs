using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Results;
using RepairShop.Services.Repairs;
using RepairShop.Web.Pages.Cameras;
using RepairShop.Web.Pages.Customers;

namespace RepairShop.Web.Pages.Repairs;

/// <summary>Everything on the booking page, as typed.</summary>
public sealed class NewFields
{
    public Guid FormKey { get; set; } = Guid.CreateVersion7();

    public Guid? CustomerId { get; set; }

    [Display(Name = "Find a customer"), StringLength(200)]
    public string? FindCustomer { get; set; }

    /// <summary>What the list of customers on the page was looked up for.</summary>
    public string? CustomersOf { get; set; }

    public CustomerFields Customer { get; set; } = new();

    [Display(Name = "None of these: this is somebody else")]
    public bool SomebodyElse { get; set; }

    public Guid? CameraId { get; set; }

    [Display(Name = "Find a camera"), StringLength(200)]
    public string? FindCamera { get; set; }

    public string? CamerasOf { get; set; }

    public CameraFields Camera { get; set; } = new();

    [Display(Name = "This is another camera with the same serial")]
    public bool AnotherOne { get; set; }

    [Display(Name = "The camera belongs to this customer now")]
    public bool NewOwner { get; set; }

    [Display(Name = "Under warranty")]
    public bool UnderWarranty { get; set; }

    [BindNever]
    public Guid? UnderWarrantyOf { get; set; }

    public RepairFields Facts { get; set; } = new();

    public static NewFields Begin(Remembered last) => new()
    {
        Camera = new CameraFields { Format = last.Format },
        UnderWarranty = true,
        Facts = new RepairFields
        {
            ArrivedHow = last.ArrivedHow,
            Agreed = last.EstimateFirst ? Agreement.EstimateFirst : Agreement.UpToALimit,
            ConsentHow = last.ConsentHow,
        },
    };

    /// <summary>Does what a look-up button says.</summary>
    /// <returns>True when the page is to be shown again; false when it is to be booked.</returns>
    public bool Turn(string act, ModelStateDictionary state)
    {
        var (what, id) = act.Split(':', 2) is [var name, var rest] && Guid.TryParse(rest, out var found) ? (name, (Guid?)found) : (act, null);
        switch (what)
        {
            case "somebody":
                (CustomerId, SomebodyElse) = (id, false);
                break;
            case "nobody":
                CustomerId = null;
                break;
            case "this":
                (CameraId, UnderWarranty) = (id, true);
                break;
            case "another":
                CameraId = null;
                break;
            case "find":
                break;
            // Enter in a find box presses the first button of the form: what was typed there is looked up before anything is booked.
            default:
                if (!LooksSomethingUp())
                    return false;
                break;
        }

        (CustomersOf, CamerasOf) = (FindCustomer, FindCamera);
        foreach (var key in new[] { nameof(CustomerId), nameof(CameraId), nameof(SomebodyElse), nameof(UnderWarranty), nameof(CustomersOf), nameof(CamerasOf) })
            state.Remove("Input." + key);
        return true;
    }

    /// <summary>Who and what, told together with whatever else is wrong, so that nobody books in three tries.</summary>
    public IEnumerable<Failure> Missing()
    {
        if (CustomerId is null && string.IsNullOrWhiteSpace(Customer.Name) && string.IsNullOrWhiteSpace(Customer.Company))
            yield return new CustomerNameMissing();
        if (CameraId is null && string.IsNullOrWhiteSpace(Camera.Maker) && string.IsNullOrWhiteSpace(Camera.Model))
            yield return new CameraUnnamed();
    }

    public BookingInput ToInput() => new()
    {
        FormKey = FormKey,
        CustomerId = CustomerId,
        NewCustomer = Customer.ToInput(),
        CustomerIsSomebodyElse = SomebodyElse,
        CameraId = CameraId,
        NewCamera = Camera.ToInput(),
        CameraIsAnotherOne = AnotherOne,
        CameraHasNewOwner = NewOwner,
        WarrantyOfId = UnderWarrantyOf,
        Facts = Facts.ToInput(),
    };

    private bool LooksSomethingUp() =>
        (CustomerId is null && !string.IsNullOrWhiteSpace(FindCustomer) && FindCustomer != CustomersOf)
        || (CameraId is null && !string.IsNullOrWhiteSpace(FindCamera) && FindCamera != CamerasOf);
}
