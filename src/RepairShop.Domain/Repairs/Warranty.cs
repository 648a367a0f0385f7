namespace RepairShop.Domain.Repairs;

/// <summary>How long a returned repair is stood by.</summary>
public static class Warranty
{
    /// <summary>The last day of it: so many calendar months after the day of return; 31 August and six months is the last of February.</summary>
    public static DateOnly Until(DateOnly returnedOn, int months) => returnedOn.AddMonths(months);

    public static bool Covers(DateOnly returnedOn, int months, DateOnly today) => months > 0 && today <= Until(returnedOn, months);
}
