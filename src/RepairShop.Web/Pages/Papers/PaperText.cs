using System.Globalization;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Web.Pages.Papers;

/// <summary>Figures and words of papers as pages show them.</summary>
public static class PaperText
{
    /// <summary>Milliseconds below a second, with three significant digits as photographers compare them.</summary>
    public static string Time(double? seconds) => seconds switch
    {
        null => "",
        >= 1 => seconds.Value.ToString("0.00", CultureInfo.CurrentCulture) + " s",
        >= 0.1 => (seconds.Value * 1000).ToString("0", CultureInfo.CurrentCulture) + " ms",
        >= 0.01 => (seconds.Value * 1000).ToString("0.0", CultureInfo.CurrentCulture) + " ms",
        _ => (seconds.Value * 1000).ToString("0.00", CultureInfo.CurrentCulture) + " ms",
    };

    public static string Stops(double stops) => stops.ToString("+0.00;−0.00;0.00", CultureInfo.CurrentCulture);

    public static (string Css, string Word) Of(LimitVerdict? verdict) => verdict switch
    {
        LimitVerdict.Within => ("within", "within"),
        LimitVerdict.WithinNotProven => ("unproven", "within, not proven"),
        LimitVerdict.OutsideNotProven => ("outside-unproven", "outside, not proven"),
        LimitVerdict.Outside => ("outside", "outside"),
        _ => ("none", "not judged"),
    };

    public static string Of(CheckOutcome? outcome) => outcome switch
    {
        CheckOutcome.Fine => "fine",
        CheckOutcome.Faulty => "faulty",
        CheckOutcome.NotFitted => "not fitted",
        CheckOutcome.NotTested => "not tested",
        _ => "–",
    };

    public static string Of(Caution caution) => caution switch
    {
        Caution.FlammableSolvent => "Flammable solvent: air the room, no flame, heater or spark.",
        Caution.FlashCapacitor => "Flash capacitor: can hold a dangerous charge long after it was switched off.",
        Caution.MercuryCell => "Mercury cell: poisonous, to be handed in as hazardous waste.",
        Caution.ThoriatedGlass => "Thoriated glass: weakly radioactive, never to be ground or polished.",
        Caution.SeleniumCell => "Selenium cell: poisonous when broken or heated.",
        _ => "Spring under tension: to be let down before loosening what holds it.",
    };
}
