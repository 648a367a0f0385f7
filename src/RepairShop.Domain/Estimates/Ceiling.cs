namespace RepairShop.Domain.Estimates;

/// <summary>One time the customer said how much may be spent, tax included.</summary>
public readonly record struct Consent(DateTimeOffset At, decimal UpTo);

/// <summary>How much may be invoiced. Model: California Code of Regulations, title 16, § 2722 — nothing above the approved
/// amount without the customer's further consent.</summary>
public static class Ceiling
{
    /// <summary>The latest word counts: limit at booking in, approved revision's high total, declined revision's strip-down
    /// charge, or consent to more.</summary>
    /// <returns>Null when nothing has been agreed yet: then nothing may be invoiced.</returns>
    public static decimal? Of(IEnumerable<Consent> consents)
    {
        decimal? ceiling = null;
        foreach (var consent in consents.OrderBy(consent => consent.At))
            ceiling = consent.UpTo;
        return ceiling;
    }
}
