using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Banking;

namespace RepairShop.Services.Banking;

internal sealed class BankStatementConfiguration : IEntityTypeConfiguration<BankStatement>
{
    public void Configure(EntityTypeBuilder<BankStatement> builder)
    {
        builder.ToTable("bank_statements");
        builder.Property(row => row.FileName).HasMaxLength(200);
        builder.Property(row => row.FileHash).HasMaxLength(64);
        builder.Property(row => row.Account).HasMaxLength(200);
        builder.Property(row => row.Number).HasMaxLength(200);
        builder.Property(row => row.Currency).HasMaxLength(3);
        builder.HasIndex(row => row.FileHash).IsUnique().HasDatabaseName("ux_bank_statements_file");
        builder.HasIndex(row => new { row.ImportedAt, row.Id }).IsDescending();
    }
}

internal sealed class BankLineConfiguration : IEntityTypeConfiguration<BankLine>
{
    public void Configure(EntityTypeBuilder<BankLine> builder)
    {
        builder.ToTable("bank_lines");
        builder.HasOne<BankStatement>().WithMany().HasForeignKey(row => row.StatementId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Account).HasMaxLength(BankLine.LongestAccount);
        builder.Property(row => row.Currency).HasMaxLength(3);
        builder.Property(row => row.Name).HasMaxLength(BankLine.LongestName);
        builder.Property(row => row.Iban).HasMaxLength(BankLine.LongestAccount);
        builder.Property(row => row.Text).HasMaxLength(BankLine.LongestText);
        builder.Property(row => row.Reference).HasMaxLength(BankLine.LongestReference);
        builder.Property(row => row.BankReference).HasMaxLength(BankLine.LongestReference);
        builder.Property(row => row.EndToEndId).HasMaxLength(BankLine.LongestReference);
        builder.Property(row => row.Identity).HasMaxLength(64);
        builder.HasIndex(row => row.Identity).IsUnique().HasDatabaseName("ux_bank_lines_identity");
        builder.HasIndex(row => new { row.StatementId, row.Position }).IsUnique();
        builder.HasIndex(row => row.Iban);
        builder.ToTable(table => table.HasCheckConstraint("ck_bank_lines_amount", "amount >= 0 and (bar <> 'None' or amount > 0 and is_credit)"));
    }
}

internal sealed class BankLineNoteConfiguration : IEntityTypeConfiguration<BankLineNote>
{
    public void Configure(EntityTypeBuilder<BankLineNote> builder)
    {
        builder.ToTable("bank_line_notes");
        builder.HasOne<BankLine>().WithMany().HasForeignKey(row => row.LineId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Reason).HasMaxLength(500);
        builder.HasIndex(row => new { row.LineId, row.Number }).IsUnique().HasDatabaseName("ux_bank_line_notes_number");
        builder.ToTable(table => table.HasCheckConstraint("ck_bank_line_notes_number", "number > 0"));
    }
}

internal sealed class BankLayoutConfiguration : IEntityTypeConfiguration<BankLayout>
{
    public void Configure(EntityTypeBuilder<BankLayout> builder)
    {
        builder.ToTable("bank_layouts");
        builder.Property(row => row.Id).HasMaxLength(64);
        builder.Property(row => row.Columns).HasColumnType("jsonb");
    }
}
