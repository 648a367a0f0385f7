using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Post;

namespace RepairShop.Services.Post;

internal sealed class OutboxMailConfiguration : IEntityTypeConfiguration<OutboxMail>
{
    public void Configure(EntityTypeBuilder<OutboxMail> builder)
    {
        builder.ToTable("outbox");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasIndex(row => row.NextTryAt).HasFilter("state in ('Waiting', 'HandingOver')");
        builder.HasIndex(row => row.RepairId);
        builder.Property(row => row.ToName).HasMaxLength(200);
        builder.Property(row => row.ToAddress).HasMaxLength(200);
        builder.Property(row => row.Subject).HasMaxLength(300);
    }
}

internal sealed class MailTextConfiguration : IEntityTypeConfiguration<MailText>
{
    public void Configure(EntityTypeBuilder<MailText> builder)
    {
        builder.ToTable("mail_texts");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasKey(row => row.Kind);
        builder.Property(row => row.Subject).HasMaxLength(300);
    }
}
