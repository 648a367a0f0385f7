using RepairShop.Domain.Paperwork;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Paperwork;

/// <summary>The label on the camera and the page the customer takes home.</summary>
internal static class ClaimTagFactsBuilder
{
    public static ClaimTagFacts Build(RepairFile file, string number, string repairUrl, string issuedBy, DateTimeOffset now) => new()
    {
        PaperNumber = number,
        IssuedAt = now,
        IssuedBy = issuedBy,
        Shop = CommonFacts.Of(file.Shop),
        RepairNumber = file.Repair.Number,
        Camera = CommonFacts.Of(file.Camera),
        Customer = CommonFacts.Of(file.Customer),
        CustomerSurname = Surname(file.Customer.Name),
        ReceivedOn = file.Shop.Today(file.Repair.BookedAt),
        RepairUrl = repairUrl,
        Complaint = CommonFacts.OrNull(file.Repair.Complaint),
        ConditionOnReceipt = CommonFacts.OrNull(file.Repair.ConditionOnReceipt),
        CameWith = file.Repair.CameWith,
        DeclaredValue = file.Repair.DeclaredValue,
        WantedBy = file.Repair.WantedBy,
        Shelf = CommonFacts.OrNull(file.Repair.Shelf),
        Agreement = file.Repair.PreApprovedLimit is { } limit
            ? $"Work up to {file.Shop.Money(limit, file.Shop.Currency)} is approved; above it we ask first."
            : "We send an estimate first and begin when it is approved.",
        Conditions = CommonFacts.Points(file.Shop.ConditionsText),
    };

    /// <summary>The last word of a name is what a counter calls out; a guess that costs nothing when wrong.</summary>
    private static string Surname(string name) => name.Split(' ', StringSplitOptions.RemoveEmptyEntries).LastOrDefault() ?? name;
}
