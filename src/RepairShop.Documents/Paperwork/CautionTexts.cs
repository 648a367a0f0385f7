using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>
/// What is printed where the work can hurt. Naphtha: NIOSH Pocket Guide, CAS 8002-05-9; flash units (250–330 V typical): public
/// electronics notes; thoriated glass: 10 CFR 40.13(c)(7); selenium: ICSC 0072; the rest is common practice.
/// </summary>
internal static class CautionTexts
{
    public const string Always = "Follow the product’s safety sheet and local rules.";

    public static string Of(Caution caution) => caution switch
    {
        Caution.FlammableSolvent => "Flammable solvent: the vapour takes fire far below room temperature. Air the room, no flame, heater or spark, small amounts, gloves.",
        Caution.FlashCapacitor => "Flash capacitor: can hold 250–330 V long after it was switched off, and kill. Discharge it through a resistor, measure before touching, measure again: it can recover.",
        Caution.MercuryCell => "Mercury cell: poisonous. Do not open or heat it; keep it closed and hand it in as hazardous waste.",
        Caution.ThoriatedGlass => "Thoriated glass: weakly radioactive. Never grind, polish or scratch it; make no dust; wash hands.",
        Caution.SeleniumCell => "Selenium cell: poisonous when broken or heated. Do not sand, scrape or burn it; wash hands.",
        Caution.SpringUnderTension => "Spring under tension: let it down before loosening what holds it, and protect your eyes.",
        _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, "No such caution."),
    };
}
