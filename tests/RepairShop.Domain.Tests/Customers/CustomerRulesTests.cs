using RepairShop.Domain.Customers;
using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Customers;

public sealed class CustomerRulesTests
{
    private static Type? Refused(Customer customer) => CustomerRules.Check(customer).Failure?.GetType();

    [Fact]
    public void A_name_or_a_company_is_needed()
    {
        Assert.Equal(typeof(CustomerNameMissing), Refused(new Customer()));
        Assert.Null(Refused(new Customer { Company = "Harbour Pictures" }));
    }

    [Theory]
    [InlineData("ada@example.com", true)]
    [InlineData("a.b+c@mail.example.co", true)]
    [InlineData("ada", false)]
    [InlineData("@example.com", false)]
    [InlineData("ada@example", false)]
    [InlineData("ada@.com", false)]
    [InlineData("ada@@example.com", false)]
    [InlineData("ada venn@example.com", false)]
    public void An_address_that_no_mail_could_reach_is_refused(string email, bool taken) =>
        Assert.Equal(taken ? null : typeof(EmailUnusable), Refused(new Customer { Name = "Ada", Email = email }));

    [Fact]
    public void A_phone_without_digits_and_a_made_up_country_are_refused()
    {
        Assert.Equal(typeof(PhoneUnusable), Refused(new Customer { Name = "Ada", Phone = "none" }));
        Assert.Equal(typeof(RepairShop.Domain.Customers.CountryUnknown), Refused(new Customer { Name = "Ada", Address = new Address { CountryCode = "UKX" } }));
    }

    [Theory]
    [InlineData("DE", "DE 123 456 789", null)]
    [InlineData("DE", "DE 123", typeof(TaxNumberWrong))]
    [InlineData("AU", "51 824 753 557", typeof(TaxNumberWrong))]
    [InlineData("JP", "whatever stands on the form", null)]
    [InlineData("", "DE 123", null)]
    [InlineData("DE", "", null)]
    public void A_tax_number_is_held_against_what_its_country_has_published(string country, string number, Type? refusal) =>
        Assert.Equal(refusal, Refused(new Customer { Name = "Ada", TaxNumber = number, Address = new Address { CountryCode = country } }));
}
