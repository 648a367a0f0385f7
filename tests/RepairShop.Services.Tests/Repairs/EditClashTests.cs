using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Customers;
using RepairShop.Services.Repairs;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Repairs;

public sealed class EditClashTests(PostgresServer server)
{
    private static CancellationToken Cancel => CounterBook.Cancel;

    [Fact]
    public async Task Two_tabs_changing_one_repair_show_the_second_both_values_and_lose_nothing()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var number = (await book.Book()).Number;
        var opened = (await book.Do<RepairService, Result<RepairToEdit>>(repairs => repairs.GetForEditAsync(number, Cancel))).Value!;
        Task<Result> Save(uint version, string complaint, string shelf) => book.Do<RepairService, Result>(repairs =>
            repairs.ChangeFactsAsync(number, version, opened.Facts with { Complaint = complaint, Shelf = shelf }, Cancel));

        Assert.True((await Save(opened.Version, "Hangs at 1/30", "A1")).IsDone);
        var clash = Assert.IsType<ChangedMeanwhile>((await Save(opened.Version, "Hangs at 1/15", "A1")).Failure);
        Assert.Equal([new FieldDifference("Complaint", "Hangs at 1/30", "Hangs at 1/15")], clash.Differences);
        var now = (await book.Do<RepairService, Result<RepairToEdit>>(repairs => repairs.GetForEditAsync(number, Cancel))).Value!;
        Assert.Equal("Hangs at 1/30", now.Facts.Complaint);
        Assert.True((await Save(now.Version, "Hangs at 1/15", "A1")).IsDone);
    }

    [Fact]
    public async Task Two_tabs_changing_one_customers_town_show_both_towns()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var id = (await book.Do<CustomerService, Result<Guid>>(customers => customers.AddAsync(new CustomerInput { Name = "Ines Marchetti", City = "Old Town" }, true, Cancel))).Value;
        var version = (await book.Do<CustomerService, Result<CustomerView>>(customers => customers.GetAsync(id, Cancel))).Value!.Version;
        Task<Result> Save(string city) => book.Do<CustomerService, Result>(customers =>
            customers.ChangeAsync(id, version, new CustomerInput { Name = "Ines Marchetti", City = city }, Cancel));

        Assert.True((await Save("Harbour")).IsDone);
        var clash = Assert.IsType<ChangedMeanwhile>((await Save("Hilltop")).Failure);
        Assert.Contains(clash.Differences, difference => difference is { Stored: "Harbour", Typed: "Hilltop" });
    }

    [Fact]
    public async Task What_has_gone_home_is_not_changed_and_the_bench_is_reached_once()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var number = (await book.Book()).Number;
        Task<Result> ToTheBench() => book.Do<RepairService, Result>(repairs => repairs.ToTheBenchAsync(number, Cancel));
        Assert.True((await ToTheBench()).IsDone);
        Assert.IsType<AlreadyOnTheBench>((await ToTheBench()).Failure);
        Assert.IsType<RepairNotFound>((await book.Do<RepairService, Result>(repairs => repairs.ToTheBenchAsync("none", Cancel))).Failure);
    }
}
