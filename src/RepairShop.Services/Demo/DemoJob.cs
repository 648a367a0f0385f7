using RepairShop.Domain.Cameras;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Checks;
using RepairShop.Services.Estimates;
using RepairShop.Services.Findings;
using RepairShop.Services.Invoices;
using RepairShop.Services.Labour;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Parts;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;
using RepairShop.Services.ShutterTests;
using CheckOutcome = RepairShop.Domain.Checks.CheckOutcome;

namespace RepairShop.Services.Demo;

/// <summary>One repair of the seed, played through the same services the pages use.</summary>
internal sealed class DemoJob(DemoBook book, DemoStock stock, SeedRepair seed, SeedCase work, SeedCamera camera, SeedCustomer customer, DemoStrip? strip, int index)
{
    private const string Address = "http://localhost:5080";

    private readonly Random chance = new(20_000 + index);
    private Guid id;
    private string number = "";
    private Guid invoice;
    private decimal owed;

    private string Bench => index % 3 == 0 ? "owner" : "bench";

    private string TaxKey => DemoTax.KeyFor(customer, stock.TaxKey);

    private bool HasMail => customer.Email.Length > 0;

    /// <summary>What happens, on which day after booking in.</summary>
    public IEnumerable<(double Day, Func<Task> Deed)> Steps()
    {
        yield return (0, BookAsync);
        if (seed.Plan == "bookedIn")
            yield break;
        yield return (0.9, () => CheckAsync(Phase.AsReceived, work.Faulty));
        if (work.Before is { } before)
            yield return (1, () => MeasureAsync(Phase.AsReceived, before, 3));
        if (seed.PreApproved is null)
        {
            yield return (2, () => EstimateAsync(1));
            if (seed.Plan is "estimateSent" or "estimateLapsed")
                yield break;
            var declined = seed.Plan.StartsWith("declined", StringComparison.Ordinal);
            yield return (4, () => AnswerAsync(declined ? EstimateAnswer.Declined : EstimateAnswer.Approved));
            if (seed.Plan == "declinedReturned")
            {
                yield return (5, () => InvoiceAsync(InvoiceBasis.StripDownCharge));
                yield return (5.1, () => ReadyAsync());
                yield return (6, () => PayAsync(1m));
                yield return (6.1, ReturnAsync);
            }
            if (declined && strip is not null)
            {
                yield return (4.5, () => strip.TakeApartAsync(id, number));
                yield return (5, () => strip.PutTogetherAsync(id));
            }
            if (declined)
                yield break;
        }
        if (seed.Plan == "approved" && camera.Owner == "lucja")
            yield return (5, DepositAsync);
        if (seed.Plan == "approved")
            yield break;
        foreach (var step in BenchSteps())
            yield return step;
    }

    private IEnumerable<(double Day, Func<Task> Deed)> BenchSteps()
    {
        yield return (7, () => book.DoAsync<RepairService>(Bench, repairs => repairs.ToTheBenchAsync(number, book.Cancel)));
        yield return (7.1, FindAsync);
        if (strip is not null)
            yield return (7.15, () => strip.TakeApartAsync(id, number));
        foreach (var (hours, i) in work.Hours.Select((hours, i) => (hours, i)))
        {
            if (seed.Plan.StartsWith("bench", StringComparison.Ordinal) && i == work.Hours.Length - 1)
                continue;
            yield return (7.2 + i, () => LabourAsync(hours));
        }
        if (seed.Further)
            yield return (8.3, ConsentAsync);
        if (seed.Plan == "benchNewEstimate")
            yield return (9, () => EstimateAsync(1));
        if (seed.Plan.StartsWith("bench", StringComparison.Ordinal))
            yield break;
        yield return (9.5, FitAsync);
        if (strip is not null)
            yield return (9.6, () => strip.PutTogetherAsync(id));
        yield return (12, () => CheckAsync(Phase.AfterService, []));
        yield return (12.1, () => MeasureAsync(Phase.AfterService, work.After, 5));
        if (seed.Plan == "tested")
            yield break;
        foreach (var step in GoingHomeSteps())
            yield return step;
    }

    private IEnumerable<(double Day, Func<Task> Deed)> GoingHomeSteps()
    {
        yield return (12.2, AdviseAsync);
        yield return (12.3, () => PaperAsync(PaperKind.ServiceRecord, HasMail));
        if (seed.Plan != "warrantyReturned")
            yield return (13, () => InvoiceAsync(seed.PreApproved is null && index % 2 == 0 ? InvoiceBasis.AsEstimated : InvoiceBasis.AsWorked));
        yield return (13.1, ReadyAsync);
        if (seed.Plan == "ready")
            yield break;
        if (seed.Plan is "returned" or "credited")
            yield return (15, () => PayAsync(index % 4 == 0 ? 0.5m : 1m));
        if (seed.Plan is "returned" or "credited" && index % 4 == 0)
            yield return (15.5, () => PayAsync(1m));
        if (seed.Plan == "readyPaid")
            yield return (15, () => PayAsync(1m));
        if (seed.Plan == "readyPaid")
            yield break;
        if (seed.Plan == "returnedUnpaid")
            yield return (15.9, () => book.DoAsync<LeavingService>("owner", leaving =>
                leaving.PassAsync(number, StillMissing.Payment, "Known customer, pays at the end of the month.", book.Cancel)));
        yield return (16, ReturnAsync);
        if (seed.Plan == "credited")
            yield return (20, CreditAsync);
        if (seed.Plan == "returned" && camera.Owner == "rhoda")
            yield return (21, CreditPartAsync);
    }

    private async Task BookAsync()
    {
        var booked = await book.DoAsync<BookingService, Booked>("counter", bookings => bookings.BookAsync(new BookingInput
        {
            FormKey = Guid.CreateVersion7(),
            CustomerId = stock.Customers[customer.Key],
            CameraId = stock.Cameras[camera.Key],
            WarrantyOfId = seed.Warranty ? stock.LastRepairOf[camera.Key] : null,
            Facts = new RepairInput
            {
                Complaint = work.Complaint,
                CameWith = seed.CameWith,
                ConditionOnReceipt = work.Condition,
                DeclaredValue = seed.DeclaredValue,
                ArrivedHow = seed.Arrived,
                ArrivalTracking = seed.Arrived == Arrival.BroughtIn ? "" : $"TRK {70_000 + index * 137}",
                WantedBy = seed.Wanted is { } days ? DateOnly.FromDateTime(stock.Today.AddDays(days).UtcDateTime) : null,
                EstimateFirst = seed.PreApproved is null,
                PreApprovedLimit = seed.PreApproved,
                ConsentBy = customer.Name,
                ConsentHow = seed.Arrived == Arrival.BroughtIn ? AnswerWay.InPerson : AnswerWay.Email,
                Shelf = seed.Shelf,
            },
        }, book.Cancel));
        (id, number) = (booked.RepairId, booked.Number);
        stock.LastRepairOf[camera.Key] = id;
        foreach (var photo in seed.Photos)
            await stock.PhotoAsync(book, number, null, photo, "As received");
        await PaperAsync(PaperKind.ClaimTag, false);
    }

    private async Task PaperAsync(PaperKind kind, bool byMail) =>
        await book.DoAsync<PaperService, IssuedPaper>("owner", papers => papers.MakeAsync(number, kind, Address, byMail, book.Cancel));

    private async Task CheckAsync(Phase phase, string[] faulty)
    {
        IReadOnlyList<CheckLine> lines = [];
        await book.DoAsync<CheckService>(Bench, async checks =>
        {
            lines = await checks.FormAsync(id, phase, book.Cancel);
            return Result.Done;
        });
        var rows = lines.Select(line => new CheckTyped(
            line.Name, line.Unit, OutcomeOf(line.Name, faulty), "",
            line.Name.StartsWith("Self-timer", StringComparison.Ordinal) && phase == Phase.AfterService && HasTimer ? 9.5 : null, line.Was)).ToList();
        await book.DoAsync<CheckService>(Bench, checks => checks.SaveAsync(id, phase, rows, book.Cancel));
    }

    private bool HasTimer => camera.Format != "6 × 9";

    private CheckOutcome OutcomeOf(string name, string[] faulty) => name switch
    {
        _ when faulty.Contains(name) => CheckOutcome.Faulty,
        "Light meter" when !camera.Variant.Contains("meter", StringComparison.Ordinal) => CheckOutcome.NotFitted,
        "Rangefinder at infinity" or "Rangefinder at near distance" when camera.Format == "6 × 9" => CheckOutcome.NotFitted,
        "Self-timer run" or "Double-exposure lock" when !HasTimer => CheckOutcome.NotFitted,
        "Flash contact M" when !camera.Shutter.Contains("MX", StringComparison.Ordinal) => CheckOutcome.NotFitted,
        _ => CheckOutcome.Fine,
    };

    private Task MeasureAsync(Phase phase, SeedErrors errors, int count) =>
        seed.Recorded ? RecordAsync(phase, errors, phase == Phase.AsReceived ? 2 : 3) : TypeAsync(phase, errors, count);

    /// <summary>Through the same reader and analysis as a file of the shop's own; the slowest speed shows the fully open level.</summary>
    private async Task RecordAsync(Phase phase, SeedErrors errors, int releases)
    {
        var wav = new DemoSignals(new Random(30_000 + 10 * index + (int)phase)).Record(
            camera.Speeds, errors, camera.ShutterKind, phase == Phase.AsReceived, releases);
        using var content = new MemoryStream(wav);
        await book.DoAsync<RecordingService, RecordingKept>(Bench, recordings => recordings.AddAsync(id, phase, null, new RecordingSent(
            $"{number}-{(phase == Phase.AsReceived ? "as-received" : "after-service")}.wav", content, new RigFacts
            {
                Roles = camera.ShutterKind == ShutterKind.FocalPlane
                    ? [ChannelRole.Light, ChannelRole.LightFirstEdge, ChannelRole.LightLastEdge] : [ChannelRole.Light],
                Reference = 1,
            }, string.Join(' ', camera.Speeds.Select(mark => $"{mark}×{releases}")), stock.Instrument), book.Cancel));
    }

    private async Task TypeAsync(Phase phase, SeedErrors errors, int count) =>
        await book.DoAsync<ShutterTestService, Guid>(Bench, tests => tests.SaveAsync(id, phase, null, new ShutterTyped(
            stock.Instrument, stock.ResolutionMilliseconds, Math.Round(18.5 + chance.NextDouble() * 4, 1), "",
            DemoReadings.Of(camera.Speeds, errors, count, chance), 0, Guid.CreateVersion7()), book.Cancel));

    private async Task EstimateAsync(int revision)
    {
        var lines = new List<DraftLine> { new(LineKind.Labour, "Strip down, clean, adjust, test", work.Low, work.High, "h", stock.LabourRate, TaxKey) };
        lines.AddRange(work.Parts.Select(use => new DraftLine(
            LineKind.Part, stock.Seed(use.Part).Name, use.Quantity, use.Quantity, "pcs", stock.Seed(use.Part).Price, TaxKey)));
        lines.Add(new DraftLine(LineKind.Material, "Cleaning and lubricants", 1, 1, "job", 8.50m, TaxKey));
        await book.DoAsync<EstimateService, int>("owner", estimates => estimates.SaveDraftAsync(number, new EstimateDraft
        {
            WhatWasSeen = work.Seen,
            StripDownCharge = stock.StripDownCharge,
            ValidUntil = DateOnly.FromDateTime(book.Now.AddDays(30).UtcDateTime),
            Lines = lines,
        }, null, book.Cancel));
        await book.DoAsync<EstimateSendService, IssuedPaper>("owner", estimates => estimates.SendAsync(number, HasMail && revision > 0, book.Cancel));
    }

    private Task AnswerAsync(EstimateAnswer answer) => book.DoAsync<EstimateAnswerService>("counter", answers => answers.AnswerAsync(
        number, 1, answer, customer.Name, HasMail ? AnswerWay.Email : AnswerWay.Phone,
        answer == EstimateAnswer.Declined ? "More than the camera is worth to me." : "", book.Cancel));

    private Task ConsentAsync() => book.DoAsync<EstimateAnswerService>("owner", answers => answers.ConsentAsync(
        number, Math.Round(work.High * stock.LabourRate * 1.9m, 0), customer.Name, AnswerWay.Phone, "One more spring is broken; asked and agreed.", book.Cancel));

    private async Task FindAsync()
    {
        for (var i = 0; i < work.Findings.Length; i++)
        {
            var finding = work.Findings[i];
            var made = await book.DoAsync<FindingService, Guid>(Bench, findings => findings.AddAsync(id, new FindingTyped(
                finding.Component, finding.Condition, finding.Text, finding.EarlierWork, finding.Gauge?.Name ?? "", finding.Gauge?.Value,
                finding.Gauge?.Unit ?? "", finding.Gauge?.Low, finding.Gauge?.High, finding.Action, true, 0), Guid.CreateVersion7(), book.Cancel));
            if (i < work.FindingPhotos.Length)
                await stock.PhotoAsync(book, number, made, work.FindingPhotos[i], finding.Component);
        }
    }

    private async Task LabourAsync(SeedHours hours) =>
        await book.DoAsync<LabourService, LabourKept>(Bench, labour => labour.AddAsync(id, new LabourTyped(
        DateOnly.FromDateTime(book.Now.UtcDateTime), null, null, $"{Math.Round(hours.Hours * 60 * (decimal)(0.9 + chance.NextDouble() * 0.15))} min",
        WhichHour.NotSaid, hours.Activity, !seed.Warranty), Guid.CreateVersion7(), book.Cancel));

    private async Task FitAsync()
    {
        foreach (var use in work.Parts)
        {
            await book.DoAsync<PartUseService, Guid>(Bench, parts => parts.UseAsync(id, new PartUseTyped(
                stock.Seed(use.Part).Number, "", use.Quantity, "pcs", stock.Seed(use.Part).Provenance, null, seed.Warranty ? 0 : null, null), Guid.CreateVersion7(), book.Cancel));
        }
    }

    private async Task AdviseAsync()
    {
        var edit = await book.DoAsync<RepairService, RepairToEdit>(Bench, repairs => repairs.GetForEditAsync(number, book.Cancel));
        await book.DoAsync<RepairService>(Bench, repairs => repairs.ChangeTextsAsync(number, edit.Version, new ClosingTexts(
            "Release the shutter at every speed a few times each month; store it uncocked.",
            index % 2 == 0 ? "Wear marks in the finish were left alone." : "",
            work.Parts.Length > 0 ? "The old parts are in the bag." : ""), book.Cancel));
    }

    private async Task InvoiceAsync(InvoiceBasis basis)
    {
        invoice = await book.DoAsync<InvoiceService, Guid>("owner", invoices => invoices.BeginAsync(number, basis, book.Cancel));
        await book.DoAsync<InvoiceIssueService, IssuedPaper>("owner", invoices => invoices.IssueAsync(invoice, HasMail, book.Cancel));
        await book.DoAsync<InvoiceReadService>("owner", async invoices =>
        {
            var sheet = await invoices.SheetAsync(number, book.Cancel);
            owed = sheet.Value?.Balance ?? 0;
            return Result.Done;
        });
    }

    private async Task PayAsync(decimal share)
    {
        var amount = Math.Round(owed * share, 2, MidpointRounding.AwayFromZero);
        owed -= amount;
        await book.DoAsync<PaymentService>("counter", payments => payments.PayAsync(invoice, new TypedPayment(
            amount, index % 3 == 0 ? PaymentMethod.Card : index % 3 == 1 ? PaymentMethod.BankTransfer : PaymentMethod.Cash,
            index % 3 == 1 ? $"Transfer {number}" : "", DateOnly.FromDateTime(book.Now.UtcDateTime), Guid.CreateVersion7()), book.Cancel));
    }

    private async Task DepositAsync()
    {
        var deposit = await book.DoAsync<InvoiceService, Guid>("owner", invoices => invoices.BeginDepositAsync(number, 60, book.Cancel));
        await book.DoAsync<InvoiceIssueService, IssuedPaper>("owner", invoices => invoices.IssueAsync(deposit, HasMail, book.Cancel));
    }

    private async Task CreditPartAsync()
    {
        var sheet = await book.DoAsync<InvoiceReadService, MoneySheet>("owner", invoices => invoices.SheetAsync(number, book.Cancel));
        var line = sheet.Issued[0].Lines.First(one => one.Kind == LineKind.Labour);
        await book.DoAsync<InvoiceIssueService, IssuedPaper>("owner", invoices => invoices.CreditAsync(
            invoice, new CreditRequest([new CreditedLine(line.Id, Math.Min(0.5m, line.Quantity))], []), "Half an hour is not charged: the camera came back for a light leak.", HasMail, book.Cancel));
    }

    private async Task CreditAsync() =>
        await book.DoAsync<InvoiceIssueService, IssuedPaper>("owner", invoices =>
        invoices.CreditAsync(invoice, "Billed to the wrong name; the customer's company pays.", HasMail, book.Cancel));

    private Task ReadyAsync() => book.DoAsync<LeavingService>("owner", leaving => leaving.ReadyAsync(number, book.Cancel));

    private Task ReturnAsync() => book.DoAsync<LeavingService>("counter", leaving => seed.ReturnHow == ReturnWay.Posted
        ? leaving.PostAsync(number, new Posting(customer.Name, "Harbour Parcels", $"HP {90_000 + index * 211} IE"), book.Cancel)
        : leaving.CollectAsync(number, new HandedOver(customer.Name, true, ""), book.Cancel));
}
