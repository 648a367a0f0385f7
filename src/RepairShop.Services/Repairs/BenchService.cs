using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Repairs;

/// <summary>What is in the house today, sorted by what it waits for.</summary>
public sealed class BenchService(ShopDb db, ShopFace face)
{
    private const int MostUnpaid = 100;

    public async Task<BenchView> GetAsync(CancellationToken cancel)
    {
        var today = face.Today;
        var open = await (
            from row in db.Repairs.Where(row => row.ReturnedAt == null)
            join stage in db.RepairStages on row.Id equals stage.RepairId
            join camera in db.Cameras on row.CameraId equals camera.Id
            join customer in db.Customers on row.CustomerId equals customer.Id
            orderby row.BookedAt
            select new BenchLine
            {
                Number = row.Number,
                Customer = customer.Name == "" ? customer.Company : customer.Name,
                Phone = customer.Phone,
                Camera = (camera.Maker + " " + camera.Model + " " + camera.Variant).Trim(),
                Complaint = row.Complaint,
                Shelf = row.Shelf,
                Stage = stage.Stage,
                BookedAt = row.BookedAt,
                ReadyAt = row.ReadyAt,
                Due = row.PromisedFor ?? row.WantedBy,
                SentAt = stage.EstimateSentAt,
                ValidUntil = stage.EstimateValidUntil,
                OnBench = row.BenchAt != null,
            }).ToListAsync(cancel);
        return new BenchView(
            [.. open.Where(line => line.Stage is Stage.OnTheBench or Stage.Tested).OrderBy(line => line.Due ?? DateOnly.MaxValue)],
            [.. open.Where(line => line.Stage == Stage.Approved || (line.Stage == Stage.BookedIn && !line.OnBench)).OrderBy(line => line.Due ?? DateOnly.MaxValue)],
            [.. open.Where(line => line.Stage == Stage.EstimateSent).OrderBy(line => line.SentAt)],
            [.. open.Where(line => line.Stage is Stage.Ready or Stage.Declined).OrderBy(line => line.ReadyAt ?? line.BookedAt)],
            open.Count(line => line.IsLate(today)),
            await UnpaidAsync(cancel));
    }

    private async Task<IReadOnlyList<UnpaidLine>> UnpaidAsync(CancellationToken cancel) => await (
        from invoice in db.Invoices
        join repair in db.Repairs on invoice.RepairId equals repair.Id
        join customer in db.Customers on invoice.CustomerId equals customer.Id
        where invoice.IssuedAt != null && invoice.Kind == InvoiceKind.Invoice
            && invoice.Gross + invoice.CashRounding - invoice.Credited - invoice.Paid - invoice.WrittenOff > 0 && repair.ReturnedAt != null
        orderby invoice.DueDate
        select new UnpaidLine(repair.Number, invoice.Number!, customer.Name == "" ? customer.Company : customer.Name,
            invoice.Gross + invoice.CashRounding - invoice.Credited - invoice.Paid - invoice.WrittenOff, invoice.DueDate)).Take(MostUnpaid).ToListAsync(cancel);
}

/// <param name="OnBench">Being worked on: on the bench or tested.</param>
/// <param name="NotStarted">Booked in or approved, waiting for hands.</param>
/// <param name="Waiting">For the customer's answer.</param>
/// <param name="GoingHome">Ready, or declined and to be put together.</param>
/// <param name="Late">How many of all are past their day.</param>
/// <param name="Unpaid">Gone home, not paid.</param>
public sealed record BenchView(
    IReadOnlyList<BenchLine> OnBench, IReadOnlyList<BenchLine> NotStarted, IReadOnlyList<BenchLine> Waiting,
    IReadOnlyList<BenchLine> GoingHome, int Late, IReadOnlyList<UnpaidLine> Unpaid);

public sealed record BenchLine
{
    public string Number { get; init; } = "";
    public string Customer { get; init; } = "";
    public string Phone { get; init; } = "";
    public string Camera { get; init; } = "";
    public string Complaint { get; init; } = "";
    public string Shelf { get; init; } = "";
    public Stage Stage { get; init; }
    public DateTimeOffset BookedAt { get; init; }
    public DateTimeOffset? ReadyAt { get; init; }

    /// <summary>Promised for, else wanted by.</summary>
    public DateOnly? Due { get; init; }
    public DateTimeOffset? SentAt { get; init; }
    public DateOnly? ValidUntil { get; init; }
    public bool OnBench { get; init; }

    /// <summary>Past its day and not yet ready.</summary>
    public bool IsLate(DateOnly today) => Stage != Stage.Ready && Due < today;

    /// <summary>The offer's day has passed without an answer.</summary>
    public bool IsLapsed(DateOnly today) => Stage == Stage.EstimateSent && ValidUntil < today;
}

public sealed record UnpaidLine(string Number, string Invoice, string Customer, decimal Owed, DateOnly? DueDate);
