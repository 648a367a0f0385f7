namespace RepairShop.Domain.Parts;

/// <summary>Where a part comes from, in the trade's words; the same on screen and paper.</summary>
public static class ProvenanceWords
{
    public static string Of(Provenance provenance) => provenance switch
    {
        Provenance.New => "new",
        Provenance.NewOldStock => "new old stock",
        Provenance.Donor => "donor camera",
        Provenance.MadeHere => "made in the workshop",
        Provenance.CustomersOwn => "supplied by the customer",
        _ => throw new ArgumentOutOfRangeException(nameof(provenance), provenance, null),
    };
}
