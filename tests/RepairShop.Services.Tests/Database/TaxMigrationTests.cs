using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Database;

/// <summary>A book written before tax profiles, brought to today's schema with its invoices in it.</summary>
public sealed class TaxMigrationTests(PostgresServer server)
{
    private const string Before = "20261125090113_StripDown";

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    private static ShopDb Open(TestDatabase database) => new(ShopDbOptions.For(database.ConnectionString), new CurrentPerson(), TimeProvider.System);

    /// <summary>One issued invoice at 21 % and nothing, and one draft of a shop that was not registered. What they hang on is left out.</summary>
    private const string OldRows = """
        set session_replication_role = replica;
        insert into tax_rates (id, name, percent, is_default) values (gen_random_uuid(), 'Standard', 21, true), (gen_random_uuid(), 'Nothing', 0, false);
        insert into invoices (id, repair_id, customer_id, kind, basis, number, created_at, created_by, issued_at, issue_date, supply_date, due_date, currency, tax_registered, prices_include_tax, note, net, tax, gross, paid)
        values ('11111111-1111-1111-1111-111111111111', gen_random_uuid(), gen_random_uuid(), 'Invoice', 'AsWorked', 'I-1', now(), gen_random_uuid(), now(), '2026-10-01', '2026-10-01', '2026-10-15', 'EUR', true, false, '', 110, 21, 131, 31),
               ('22222222-2222-2222-2222-222222222222', gen_random_uuid(), gen_random_uuid(), 'Invoice', 'AsWorked', null, now(), gen_random_uuid(), null, null, '2026-10-01', null, 'EUR', false, false, '', 50, 0, 50, 0);
        insert into invoice_lines (id, invoice_id, position, kind, text, quantity, unit, unit_price, tax_name, tax_percent)
        values (gen_random_uuid(), '11111111-1111-1111-1111-111111111111', 1, 'Labour', 'Labour', 1, 'h', 100, 'Standard', 21),
               (gen_random_uuid(), '11111111-1111-1111-1111-111111111111', 2, 'Part', 'Spring', 1, 'pcs', 10, 'Nothing', 0),
               (gen_random_uuid(), '22222222-2222-2222-2222-222222222222', 1, 'Labour', 'Labour', 1, 'h', 50, '', 0);
        set session_replication_role = origin;
        """;

    [Fact]
    public async Task Invoices_of_before_keep_their_figures_and_can_be_credited_to_the_cent()
    {
        await using var database = await server.CreateEmptyDatabaseAsync(Ct);
        await using (var old = Open(database))
        {
            await old.GetService<IMigrator>().MigrateAsync(Before, Ct);
            await old.Database.ExecuteSqlRawAsync(OldRows, Ct);
            await old.Database.MigrateAsync(Ct);
        }
        await using var db = Open(database);
        var invoices = await db.Invoices.AsNoTracking().Include(row => row.Lines).Include(row => row.Changes).Include(row => row.Taxes).ToListAsync(Ct);
        var issued = invoices.Single(row => row.IssuedAt is not null);
        Assert.Equal((131m, 131m, 100m), (issued.Payable, issued.Totals().Gross, issued.Balance));
        Assert.Equal([(TaxCategory.Standard, 21m), (TaxCategory.Zero, 0m)], issued.TaxTotals().Select(tax => (tax.Category, tax.Tax)));
        var left = CreditLeft.Of(issued, []);
        Assert.Equal((131m, 2), (left.Total, CreditDrafting.LinesOf(issued, left, CreditRequest.Everything).Value!.Count));
        Assert.Equal(TaxTreatment.NotRegistered, invoices.Single(row => row.IssuedAt is null).Treatment);
        Assert.Equal([TaxCategory.Zero, TaxCategory.Standard], await db.TaxRates.OrderBy(rate => rate.Percent).Select(rate => rate.Category).ToListAsync(Ct));
    }
}
