using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Reminders;

namespace RepairShop.Services.Reminders;

internal sealed class ReminderStepConfiguration : IEntityTypeConfiguration<ReminderStep>
{
    public void Configure(EntityTypeBuilder<ReminderStep> builder)
    {
        builder.ToTable("reminder_steps");
        builder.HasKey(row => row.Number);
        builder.Property(row => row.Number).ValueGeneratedNever();
        builder.Property(row => row.Title).HasMaxLength(60);
        builder.Property(row => row.Version).IsRowVersion();
        builder.ToTable(table => table.HasCheckConstraint("ck_reminder_steps_sane", "number >= 1 and days_after_due >= 1 and days_to_pay >= 0 and fee >= 0"));
    }
}

internal sealed class ReminderLetterConfiguration : IEntityTypeConfiguration<ReminderLetter>
{
    public void Configure(EntityTypeBuilder<ReminderLetter> builder)
    {
        builder.ToTable("reminder_letters");
        builder.HasOne<Customer>().WithMany().HasForeignKey(row => row.CustomerId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Paper>().WithMany().HasForeignKey(row => row.PaperId).OnDelete(DeleteBehavior.Restrict);
        builder.HasMany(row => row.Reminders).WithOne().HasForeignKey(row => row.LetterId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Currency).HasMaxLength(3);
        builder.HasIndex(row => row.SentOn);
        builder.ToTable(table => table.HasCheckConstraint("ck_reminder_letters_days", "pay_by >= sent_on and fee >= 0"));
        builder.ToTable(table => table.HasCheckConstraint("ck_reminder_letters_posted", "(posted_at is null) = (posted_by is null) and (posted_at is null or not by_mail)"));
        builder.ToTable(table => table.HasCheckConstraint("ck_reminder_letters_waived", "(fee_waived_at is null) = (fee_waived_by is null) and (fee_waived_at is null or fee > 0)"));
    }
}

internal sealed class ReminderConfiguration : IEntityTypeConfiguration<Reminder>
{
    public void Configure(EntityTypeBuilder<Reminder> builder)
    {
        builder.ToTable("reminders");
        builder.HasOne<Invoice>().WithMany().HasForeignKey(row => row.InvoiceId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Title).HasMaxLength(60);
        builder.HasIndex(row => new { row.InvoiceId, row.Step }).IsUnique().HasDatabaseName("ux_reminders_step");
        builder.HasIndex(row => new { row.InvoiceId, row.SentOn }).IsUnique().HasDatabaseName("ux_reminders_day");
        builder.ToTable(table => table.HasCheckConstraint("ck_reminders_due", "due > 0 and step >= 1"));
    }
}

internal sealed class ReminderHoldConfiguration : IEntityTypeConfiguration<ReminderHold>
{
    public void Configure(EntityTypeBuilder<ReminderHold> builder)
    {
        builder.ToTable("reminder_holds");
        builder.HasOne<Invoice>().WithMany().HasForeignKey(row => row.InvoiceId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Reason).HasMaxLength(500);
    }
}
