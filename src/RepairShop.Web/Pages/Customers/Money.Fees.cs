using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Reminders;

namespace RepairShop.Web.Pages.Customers;

/// <summary>Fees that reminders asked for.</summary>
public sealed partial class MoneyModel
{
    /// <summary>Neither taken nor waived.</summary>
    public IReadOnlyList<OpenFee> Fees { get; private set; } = [];

    public async Task<IActionResult> OnPostTakeFeeAsync(Guid letter, Guid formKey, CancellationToken cancel) =>
        await DoneAsync(await fees.TakeAsync(Id, letter, formKey, cancel), "The fee is taken out of the credit and booked.", cancel);

    public async Task<IActionResult> OnPostWaiveFeeAsync(Guid letter, CancellationToken cancel) =>
        await DoneAsync(await fees.WaiveAsync(Id, letter, cancel), "The fee is waived: no letter asks for it any more.", cancel);
}
