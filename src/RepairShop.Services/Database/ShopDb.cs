using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Post;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Reminders;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;
using RepairShop.Domain.ShutterTests;
using RepairShop.Domain.StripDown;
using RepairShop.Domain.Tools;
using RepairShop.Services.Accounts;
using RepairShop.Services.Ledger;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Database;

/// <summary>The workshop's database. Every saved change leaves a line in the audit trail in the same transaction.</summary>
public sealed class ShopDb(DbContextOptions<ShopDb> options, CurrentPerson person, TimeProvider clock)
    : IdentityDbContext<Account, IdentityRole<Guid>, Guid>(options), IDataProtectionKeyContext
{
    public DbSet<ShopSettings> Shop => Set<ShopSettings>();
    public DbSet<TaxRate> TaxRates => Set<TaxRate>();
    public DbSet<TaxProfile> TaxProfiles => Set<TaxProfile>();
    public DbSet<CheckItem> CheckItems => Set<CheckItem>();
    public DbSet<NumberSeries> NumberSeries => Set<NumberSeries>();
    public DbSet<AuditEntry> Audit => Set<AuditEntry>();
    public DbSet<Customer> Customers => Set<Customer>();
    public DbSet<Camera> Cameras => Set<Camera>();
    public DbSet<Repair> Repairs => Set<Repair>();
    public DbSet<RepairStage> RepairStages => Set<RepairStage>();
    public DbSet<RepairPass> RepairPasses => Set<RepairPass>();
    public DbSet<Photo> Photos => Set<Photo>();
    public DbSet<CheckResult> CheckResults => Set<CheckResult>();
    public DbSet<ShutterTest> ShutterTests => Set<ShutterTest>();
    public DbSet<Reading> Readings => Set<Reading>();
    public DbSet<KeptRecording> Recordings => Set<KeptRecording>();
    public DbSet<Estimate> Estimates => Set<Estimate>();
    public DbSet<EstimateLine> EstimateLines => Set<EstimateLine>();
    public DbSet<FurtherConsent> FurtherConsents => Set<FurtherConsent>();
    public DbSet<AnswerLink> AnswerLinks => Set<AnswerLink>();
    public DbSet<Finding> Findings => Set<Finding>();
    public DbSet<Tray> Trays => Set<Tray>();
    public DbSet<StripStep> StripSteps => Set<StripStep>();
    public DbSet<StripItem> StripItems => Set<StripItem>();
    public DbSet<CleaningWay> CleaningWays => Set<CleaningWay>();
    public DbSet<LabourEntry> LabourEntries => Set<LabourEntry>();
    public DbSet<LabourCorrection> LabourCorrections => Set<LabourCorrection>();
    public DbSet<Part> Parts => Set<Part>();
    public DbSet<StockMovement> StockMovements => Set<StockMovement>();
    public DbSet<PartUse> PartUses => Set<PartUse>();
    public DbSet<Tool> Tools => Set<Tool>();
    public DbSet<Mount> Mounts => Set<Mount>();
    public DbSet<Invoice> Invoices => Set<Invoice>();
    public DbSet<InvoiceLine> InvoiceLines => Set<InvoiceLine>();
    public DbSet<InvoiceChange> InvoiceChanges => Set<InvoiceChange>();
    public DbSet<InvoiceTax> InvoiceTaxes => Set<InvoiceTax>();
    public DbSet<Payment> Payments => Set<Payment>();
    public DbSet<Receipt> Receipts => Set<Receipt>();
    public DbSet<CustomerCredit> CustomerCredits => Set<CustomerCredit>();
    public DbSet<WriteOff> WriteOffs => Set<WriteOff>();
    public DbSet<ReminderStep> ReminderSteps => Set<ReminderStep>();
    public DbSet<ReminderLetter> ReminderLetters => Set<ReminderLetter>();
    public DbSet<Reminder> Reminders => Set<Reminder>();
    public DbSet<ReminderHold> ReminderHolds => Set<ReminderHold>();
    public DbSet<BankStatement> BankStatements => Set<BankStatement>();
    public DbSet<BankLine> BankLines => Set<BankLine>();
    public DbSet<BankLineNote> BankLineNotes => Set<BankLineNote>();
    public DbSet<BankLayout> BankLayouts => Set<BankLayout>();
    public DbSet<JournalEntry> JournalEntries => Set<JournalEntry>();
    public DbSet<JournalLine> JournalLines => Set<JournalLine>();
    public DbSet<ClosedMonth> ClosedMonths => Set<ClosedMonth>();
    public DbSet<AccountName> AccountNames => Set<AccountName>();
    public DbSet<StockLayer> StockLayers => Set<StockLayer>();
    public DbSet<StockTaking> StockTakings => Set<StockTaking>();
    public DbSet<Paper> Papers => Set<Paper>();
    public DbSet<OutboxMail> Outbox => Set<OutboxMail>();
    public DbSet<MailText> MailTexts => Set<MailText>();
    public DbSet<ModelPage> ModelPages => Set<ModelPage>();
    public DbSet<ModelVariant> ModelVariants => Set<ModelVariant>();
    public DbSet<ModelEntry> ModelEntries => Set<ModelEntry>();
    public DbSet<ModelPhoto> ModelPhotos => Set<ModelPhoto>();
    public DbSet<GuideVersion> GuideVersions => Set<GuideVersion>();
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.ApplyConfigurationsFromAssembly(typeof(ShopDb).Assembly);
    }

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(40);
        configurationBuilder.Properties<decimal>().HavePrecision(18, 4);
    }

    /// <exception cref="NotSupportedException">Something that belongs into the journal is among the changes: that is written by
    /// <see cref="SaveChangesAsync(bool, CancellationToken)"/> alone.</exception>
    public override int SaveChanges(bool acceptAllChangesOnSuccess)
    {
        if (Bookkeeper.HasSomethingToWrite(this))
            throw new NotSupportedException("Save invoices and payments with SaveChangesAsync.");
        AuditTrail.Record(this, person.Id, clock.GetUtcNow());
        return base.SaveChanges(acceptAllChangesOnSuccess);
    }

    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        await Bookkeeper.RecordAsync(this, cancellationToken);
        AuditTrail.Record(this, person.Id, clock.GetUtcNow());
        return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }
}
