using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Shop;

public sealed class TaxTermsTests
{
    private static readonly DateOnly Day = new(2026, 11, 24);
    private static readonly ShopSettings Shop = new() { TaxRegistered = true, PricesIncludeTax = true };

    private static TaxProfile Profile(string name, Action<TaxProfile>? change = null)
    {
        var profile = new TaxProfile { Name = name };
        change?.Invoke(profile);
        return profile;
    }

    [Fact]
    public void The_profile_asked_for_comes_before_the_customers_own_and_that_before_the_usual()
    {
        var (usual, own, wanted) = (Profile("usual", profile => profile.IsUsual = true), Profile("own"), Profile("wanted"));
        string Chosen(Guid? asked, Guid? customers) => TaxTerms.For(Shop, [usual, own, wanted], asked, customers, Day).Name;
        Assert.Equal(("wanted", "own", "usual"), (Chosen(wanted.Id, own.Id), Chosen(null, own.Id), Chosen(null, null)));
    }

    [Theory]
    [InlineData("2026-11-24", "2026-11-24", true)]
    [InlineData("2026-11-25", null, false)]
    [InlineData(null, "2026-11-23", false)]
    [InlineData("2026-11-24", null, true)]
    [InlineData(null, "2026-11-24", true)]
    public void A_profile_holds_from_its_first_day_to_its_last_both_included(string? from, string? until, bool valid)
    {
        var profile = Profile("dated", one => (one.IsUsual, one.ValidFrom, one.ValidUntil) =
            (true, from is null ? null : DateOnly.Parse(from, null), until is null ? null : DateOnly.Parse(until, null)));
        Assert.Equal(valid, TaxTerms.For(Shop, [profile], null, null, Day).Name == "dated");
    }

    [Fact]
    public void Without_a_profile_for_the_day_the_settings_hold()
    {
        var terms = TaxTerms.For(Shop, [Profile("retired", profile => (profile.IsUsual, profile.RetiredAt) = (true, DateTimeOffset.UnixEpoch))], null, null, Day);
        Assert.Equal((null, TaxTreatment.Charged, true), (terms.ProfileId, terms.Treatment, terms.PricesIncludeTax));
        Assert.Equal(TaxTreatment.NotRegistered, TaxTerms.For(new ShopSettings(), [], null, null, Day).Treatment);
    }

    /// <summary>UNCL5305: G, AE, E, O; and E for labour that a sales tax leaves alone.</summary>
    [Theory]
    [InlineData(TaxTreatment.Export, TaxCategory.Export)]
    [InlineData(TaxTreatment.ReverseCharge, TaxCategory.ReverseCharge)]
    [InlineData(TaxTreatment.Exempt, TaxCategory.Exempt)]
    [InlineData(TaxTreatment.NotRegistered, TaxCategory.OutsideScope)]
    public void Where_nothing_is_charged_every_line_has_the_category_that_says_why(TaxTreatment treatment, TaxCategory category)
    {
        var terms = TaxTerms.Of(Profile("free", profile => (profile.Treatment, profile.PricesIncludeTax) = (treatment, true)));
        Assert.Equal((category, 0m), (terms.Fixed(isLabour: true)!.Value.Category, terms.Fixed(isLabour: false)!.Value.Percent));
        Assert.False(terms.PricesIncludeTax);
    }

    [Fact]
    public void A_sales_tax_on_parts_leaves_labour_out_with_a_reason_and_parts_at_their_rate()
    {
        var terms = TaxTerms.Of(Profile("parts only", profile => profile.TaxesLabour = false));
        Assert.Equal(TaxCategory.Exempt, terms.Fixed(isLabour: true)!.Value.Category);
        Assert.Null(terms.Fixed(isLabour: false));
        Assert.NotEmpty(terms.ReasonFor(TaxCategory.Exempt)!);
        Assert.Null(terms.ReasonFor(TaxCategory.Standard));
    }
}
