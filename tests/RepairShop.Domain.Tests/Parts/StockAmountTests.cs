using System.Globalization;
using RepairShop.Domain.Parts;
using Xunit;

namespace RepairShop.Domain.Tests.Parts;

public class StockAmountTests
{
    public static TheoryData<decimal, bool> Quantities => new()
    {
        { 0m, false }, { 0.001m, true }, { 0.0001m, false }, { 1m, true }, { 100_000m, true }, { 100_000.001m, false }, { -1m, false },
    };

    [Theory]
    [MemberData(nameof(Quantities))]
    public void A_quantity_is_above_nothing_with_three_decimals_at_most(decimal quantity, bool taken) =>
        Assert.Equal(taken, StockAmount.IsQuantity(quantity));

    public static TheoryData<decimal, bool> Prices => new()
    {
        { -0.01m, false }, { 0m, true }, { 999_999_999.99m, true }, { 1_000_000_000m, false },
    };

    [Theory]
    [MemberData(nameof(Prices))]
    public void A_price_is_nothing_or_more(decimal price, bool taken) => Assert.Equal(taken, StockAmount.IsPrice(price));

    [Fact]
    public void Sentences_name_what_is_there_and_what_is_wanted()
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        Assert.Equal(
            "There are only 1.5 of P0001 Spring on hand, and 2 is wanted: take fewer, or correct the count first.",
            new NotEnoughOnHand("P0001 Spring", 1.5m, 2m).Message);
        Assert.StartsWith("There is none of P0001 Spring left", new NotEnoughOnHand("P0001 Spring", 0m, 1m).Message);
    }

    [Fact]
    public void Every_provenance_has_its_words() =>
        Assert.Equal(
            ["new", "new old stock", "donor camera", "made in the workshop", "supplied by the customer"],
            Enum.GetValues<Provenance>().Select(ProvenanceWords.Of));
}
