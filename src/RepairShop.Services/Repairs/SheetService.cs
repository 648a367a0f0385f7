using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Invoices;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Repairs;

/// <summary>Puts a repair's sheet together: what it is, where it stands and why, what it has come to, what is missing.</summary>
public sealed class SheetService(ShopDb db, ShopFace face, LeavingService leaving, PhotoService photos)
{
    /// <summary>The number of a repair whose sheet shows much: of the newest hundred one that went home, else the newest; null in an empty book.</summary>
    public Task<string?> FullestAsync(CancellationToken cancel) => db.Repairs
        .OrderByDescending(repair => repair.BookedAt).Take(100).OrderByDescending(repair => repair.ReturnedAt != null)
        .Select(repair => repair.Number).FirstOrDefaultAsync(cancel);

    public async Task<Result<RepairSheet>> GetAsync(string number, CancellationToken cancel)
    {
        var row = await (
            from repair in db.Repairs.AsNoTracking()
            join camera in db.Cameras.AsNoTracking() on repair.CameraId equals camera.Id
            join customer in db.Customers.AsNoTracking() on repair.CustomerId equals customer.Id
            join stage in db.RepairStages on repair.Id equals stage.RepairId
            where repair.Number == number
            select new
            {
                repair,
                camera,
                customer,
                stage.Stage,
                BookedBy = db.Users.Where(user => user.Id == repair.BookedBy).Select(user => user.DisplayName).FirstOrDefault(),
                WarrantyOf = db.Repairs.Where(earlier => earlier.Id == repair.WarrantyOfId).Select(earlier => earlier.Number).FirstOrDefault(),
                Earlier = db.Repairs.Count(other => other.CameraId == repair.CameraId && other.BookedAt < repair.BookedAt),
            }).SingleOrDefaultAsync(cancel);
        if (row is null)
            return new RepairNotFound(number);
        var (booked, seen) = (row.repair, row.camera);
        return new RepairSheet
        {
            Id = booked.Id,
            Number = number,
            Camera = new SheetCamera(seen.Id, CameraRules.NameOf(seen.Maker, seen.Model, seen.Variant), seen.Format, seen.BodySerial,
                seen.Lens, seen.LensSerial, seen.ShutterKind, seen.Shutter, seen.ShutterSerial, seen.MarkedSpeeds),
            Customer = new SheetCustomer(row.customer.Id, CustomerService.NameOf(row.customer.Name, row.customer.Company), row.customer.Email, row.customer.Phone),
            Booking = new SheetBooking(booked.BookedAt, row.BookedBy ?? "", booked.Complaint, booked.CameWith, booked.ConditionOnReceipt,
                booked.DeclaredValue, booked.ArrivedHow, booked.ArrivalTracking, booked.WantedBy, booked.Shelf, booked.ConsentBy, booked.ConsentHow, booked.ConsentAt),
            Margin = await MarginAsync(booked, row.Stage, cancel),
            Photos = await photos.OfRepairAsync(booked.Id, cancel),
            Stage = row.Stage,
            Texts = new ClosingTexts(booked.Advice, booked.LeftAlone, booked.PartsReturned),
            WarrantyOf = row.WarrantyOf,
            ReturnedAt = booked.ReturnedAt,
            Carrier = booked.Carrier,
            ReturnTracking = booked.ReturnTracking,
            EarlierVisits = row.Earlier,
        };
    }

    private async Task<SheetMargin> MarginAsync(Repair repair, Stage stage, CancellationToken cancel)
    {
        var facts = await leaving.FactsAsync(repair.Id, cancel);
        var offers = await db.Estimates.AsNoTracking().Include(row => row.Lines)
            .Where(row => row.RepairId == repair.Id && row.SentAt != null).OrderBy(row => row.Revision).ToListAsync(cancel);
        var work = await db.LabourEntries.Where(row => row.RepairId == repair.Id && row.RemovedAt == null)
            .Select(row => new { row.Minutes, row.Billable }).ToListAsync(cancel);
        var invoiced = await db.Invoices
            .Where(row => row.RepairId == repair.Id && row.Kind == InvoiceKind.Invoice && row.IssuedAt != null)
            .Select(row => new { IsDeposit = row.Basis == InvoiceBasis.Deposit, Sum = row.Gross + row.CashRounding - row.Credited }).ToListAsync(cancel);
        var isInvoiced = invoiced.Any(row => !row.IsDeposit); // a deposit is taken off the bill for the work, and is not that bill
        var latest = offers.Count > 0 ? offers[^1] : null;
        var due = repair.PromisedFor ?? repair.WantedBy;
        var hasFindings = await db.Findings.AnyAsync(row => row.RepairId == repair.Id && row.RemovedAt == null, cancel);
        var labour = latest?.Lines.Where(line => line.Kind == LineKind.Labour).ToList();
        return new SheetMargin
        {
            Trail = Trail.Of(await TrailAsync(repair, stage, offers, cancel), face.Today),
            Next = NextSteps.Of(facts, latest?.StateOn(face.Today) == EstimateState.Lapsed, hasFindings, repair.ReadyAt is not null, repair.ReturnedAt is not null),
            Due = due,
            DueIsPromise = repair.PromisedFor is not null,
            IsLate = due < face.Today && repair.ReadyAt is null && repair.ReturnedAt is null,
            MinutesWorked = work.Sum(entry => entry.Minutes ?? 0),
            LowHours = labour?.Sum(line => line.LowQuantity),
            HighHours = labour?.Sum(line => line.HighQuantity),
            ApprovedUpTo = await CeilingAsync(repair, offers, cancel),
            UsedSoFar = isInvoiced ? invoiced.Sum(row => row.Sum) : await WorkedAsync(repair, work.Where(entry => entry.Billable).Sum(entry => entry.Minutes ?? 0), cancel),
            IsInvoiced = isInvoiced,
            Owed = facts.Balance,
            MissingForReady = Leaving.BeforeReady(facts),
            MissingForReturn = Leaving.BeforeReturn(facts),
            StillOut = facts.StillOut,
            Passed = await (
                from pass in db.RepairPasses
                where pass.RepairId == repair.Id
                orderby pass.At
                select new PassedItem(pass.Item, pass.Reason, db.Users.Where(user => user.Id == pass.By).Select(user => user.DisplayName).FirstOrDefault() ?? "", pass.At))
                .ToListAsync(cancel),
        };
    }

    private async Task<TrailFacts> TrailAsync(Repair repair, Stage stage, List<Estimate> offers, CancellationToken cancel)
    {
        var check = await db.CheckResults.Where(row => row.RepairId == repair.Id && row.Phase == Phase.AfterService && row.Outcome != CheckOutcome.NotTested)
            .MinAsync(row => (DateTimeOffset?)row.CheckedAt, cancel);
        var reading = await db.ShutterTests.Where(row => row.RepairId == repair.Id && row.Phase == Phase.AfterService && row.Readings.Any(one => one.StruckOutReason == null))
            .MinAsync(row => (DateTimeOffset?)row.MeasuredAt, cancel);
        return new TrailFacts
        {
            Stage = stage,
            BookedAt = repair.BookedAt,
            PreApprovedLimit = repair.PreApprovedLimit,
            Offers = [.. offers.Select(offer => new OfferFact(
                offer.Revision, offer.SentAt!.Value, offer.ValidUntil, offer.Answer, offer.AnsweredAt, offer.AnsweredHow))],
            BenchAt = repair.BenchAt,
            Shelf = repair.Shelf,
            TestedAt = check is null || reading < check ? reading ?? check : check,
            ReadyAt = repair.ReadyAt,
            ReturnedAt = repair.ReturnedAt,
            ReturnHow = repair.ReturnHow,
            ReturnedTo = repair.ReturnedTo,
        };
    }

    private async Task<decimal?> CeilingAsync(Repair repair, List<Estimate> offers, CancellationToken cancel)
    {
        var consents = await db.FurtherConsents.Where(row => row.RepairId == repair.Id)
            .Select(row => new Consent(row.GivenAt, row.UpTo)).ToListAsync(cancel);
        if (repair.PreApprovedLimit is { } limit)
            consents.Add(new Consent(repair.BookedAt, limit));
        consents.AddRange(offers.Where(offer => offer.AnsweredAt is not null).Select(offer => new Consent(
            offer.AnsweredAt!.Value, offer.Answer == EstimateAnswer.Approved ? offer.HighGross ?? 0 : EstimateTotals.StripDownGross(offer))));
        return Ceiling.Of(consents);
    }

    private async Task<decimal> WorkedAsync(Repair repair, int billableMinutes, CancellationToken cancel)
    {
        var parts = await db.PartUses.AsNoTracking().Where(row => row.RepairId == repair.Id && row.RemovedAt == null).ToListAsync(cancel);
        if (billableMinutes == 0 && parts.Count == 0)
            return 0;
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var profile = await db.Customers.Where(row => row.Id == repair.CustomerId).Select(row => row.TaxProfileId).SingleAsync(cancel);
        var terms = await TaxTermsReader.ReadAsync(db, shop, null, profile, face.Today, cancel);
        var rates = await db.TaxRates.AsNoTracking().ValidOn(face.Today).OrderByDescending(row => row.IsDefault).ToListAsync(cancel);
        var lines = InvoiceDrafting.AsWorked(InvoiceDrafting.Hours(billableMinutes, shop.LabourRounding), shop, terms.ChargesTax && rates.Count > 0 ? rates[0] : null, parts);
        TaxTermsLines.Tax(lines, terms, rates, keepsItsRates: false, terms.PricesIncludeTax);
        return Totals.Of([.. lines.Select(line => line.Priced())], terms.IsRegistered, terms.PricesIncludeTax, Currency.MinorUnits(shop.Currency)).Gross;
    }
}
