using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Shop;

internal sealed class ShopSettingsConfiguration : IEntityTypeConfiguration<ShopSettings>
{
    public void Configure(EntityTypeBuilder<ShopSettings> builder)
    {
        builder.ToTable("shop");
        builder.Property(row => row.Id).ValueGeneratedNever();
        builder.ToTable(table => table.HasCheckConstraint("ck_shop_only_one", "id = 1"));
        builder.ComplexProperty(row => row.Address);
        builder.Property(row => row.Version).IsRowVersion();
        builder.Property(row => row.Name).HasMaxLength(200);
        builder.Property(row => row.Email).HasMaxLength(200);
        builder.Property(row => row.Phone).HasMaxLength(200);
        builder.Property(row => row.TaxNumber).HasMaxLength(200);
        builder.Property(row => row.RegistrationNumber).HasMaxLength(200);
        builder.Property(row => row.EInvoices).HasDefaultValue(EInvoiceUse.Never);
        builder.ToTable(table => table.HasCheckConstraint("ck_shop_cash_step", "cash_step >= 0"));
        builder.Property(row => row.BankName).HasMaxLength(200);
        builder.Property(row => row.AccountHolder).HasMaxLength(200);
        builder.Property(row => row.PublicAddress).HasMaxLength(200);
        builder.Property(row => row.Iban).HasMaxLength(60);
        builder.Property(row => row.Bic).HasMaxLength(60);
        builder.Property(row => row.Locale).HasMaxLength(60);
        builder.Property(row => row.TimeZone).HasMaxLength(60);
        builder.Property(row => row.RepairNumberFormat).HasMaxLength(60);
        builder.Property(row => row.InvoiceNumberFormat).HasMaxLength(60);
        builder.Property(row => row.CreditNoteNumberFormat).HasMaxLength(60);
        builder.Property(row => row.PartNumberFormat).HasMaxLength(60);
        builder.Property(row => row.Currency).HasMaxLength(3);
    }
}

internal sealed class TaxRateConfiguration : IEntityTypeConfiguration<TaxRate>
{
    public void Configure(EntityTypeBuilder<TaxRate> builder)
    {
        builder.ToTable("tax_rates");
        builder.Property(row => row.Name).HasMaxLength(60);
        builder.Property(row => row.Version).IsRowVersion();
        builder.Property(row => row.Percent).HasPrecision(7, 4);
        builder.Property(row => row.Category).HasDefaultValue(TaxCategory.Standard);
        builder.Property(row => row.Reason).HasMaxLength(500).HasDefaultValue("");
        builder.ToTable(table => table.HasCheckConstraint("ck_tax_rates_percent", "percent >= 0 and percent <= 100"));
        builder.ToTable(table => table.HasCheckConstraint("ck_tax_rates_days", "valid_from <= valid_until"));
    }
}

internal sealed class TaxProfileConfiguration : IEntityTypeConfiguration<TaxProfile>
{
    public void Configure(EntityTypeBuilder<TaxProfile> builder)
    {
        builder.ToTable("tax_profiles");
        builder.Property(row => row.Name).HasMaxLength(60);
        builder.Property(row => row.Reason).HasMaxLength(500);
        builder.Property(row => row.Version).IsRowVersion();
        builder.ToTable(table => table.HasCheckConstraint("ck_tax_profiles_days", "valid_from <= valid_until"));
    }
}

internal sealed class CheckItemConfiguration : IEntityTypeConfiguration<CheckItem>
{
    public void Configure(EntityTypeBuilder<CheckItem> builder)
    {
        builder.ToTable("check_items");
        builder.Property(row => row.Name).HasMaxLength(120);
        builder.Property(row => row.Unit).HasMaxLength(20);
    }
}

internal sealed class NumberSeriesConfiguration : IEntityTypeConfiguration<NumberSeries>
{
    public void Configure(EntityTypeBuilder<NumberSeries> builder)
    {
        builder.ToTable("number_series");
        builder.HasKey(row => row.Key);
        builder.Property(row => row.Key).HasMaxLength(60);
    }
}

internal sealed class AuditEntryConfiguration : IEntityTypeConfiguration<AuditEntry>
{
    public void Configure(EntityTypeBuilder<AuditEntry> builder)
    {
        builder.ToTable("audit");
        builder.Property(row => row.Id).UseIdentityAlwaysColumn();
        builder.Property(row => row.Changes).HasColumnType("jsonb");
        builder.HasIndex(row => row.RepairId);
        builder.HasIndex(row => row.At);
        builder.Property(row => row.Entity).HasMaxLength(80);
        builder.Property(row => row.EntityId).HasMaxLength(80);
        builder.Property(row => row.Action).HasMaxLength(80);
    }
}
