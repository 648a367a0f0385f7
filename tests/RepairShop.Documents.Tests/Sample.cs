using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests;

/// <summary>Facts of one invented repair in an invented shop, complete enough to fill every paper. Change what a test is about with <c>with</c>.</summary>
public static class Sample
{
    public static readonly ShopFacts Shop = new()
    {
        Name = "Tern Street Cameras",
        AddressLines = ["14 Tern Street", "Havenmouth HM4 2QT"],
        Country = "IE",
        TaxNumber = "IE 0000000 EX",
        Email = "bench@ternstreet.example",
        Phone = "020 7946 0187",
        Website = "ternstreet.example",
        Iban = "BE68539007547034",
        Bic = "EXAMBEB1",
        Locale = "en-IE",
        Currency = "EUR",
        TimeZone = "Europe/Dublin",
    };

    public static readonly PartyFacts Customer = new()
    {
        Name = "Ines Halloway",
        AddressLines = ["Flat 3, Old Customs House", "Quay Lane", "Havenmouth HM1 1AA"],
        Country = "IE",
        Email = "ines@example.com",
        Phone = "020 7946 0122",
    };

    public static readonly CameraFacts Camera = new()
    {
        Maker = "Orrevale",
        Model = "Pelter IIb",
        Variant = "second pattern",
        Format = "6 × 6 on roll film",
        BodySerial = "218446",
        Lens = "Sunna 75 mm f/3.5",
        LensSerial = "90331",
        Shutter = "Tacet 0",
        ShutterSerial = "T 55120",
        ShutterKind = "between-lens",
    };

    public const string Complaint =
        "“Slow speeds hang, and the pictures from 1/30 down are too bright. It was serviced abroad ten years ago and has been stiff in the cold ever since.”";

    private static readonly DateTimeOffset Issued = new(2026, 11, 24, 15, 5, 0, TimeSpan.Zero);

    public static readonly ClaimTagFacts ClaimTag = new()
    {
        PaperNumber = "2026-0417-T1",
        IssuedAt = new DateTimeOffset(2026, 11, 3, 10, 12, 0, TimeSpan.Zero),
        IssuedBy = "Rowan Teague",
        Shop = Shop,
        RepairNumber = "2026-0417",
        Camera = Camera,
        Customer = Customer,
        CustomerSurname = "Halloway",
        ReceivedOn = new DateOnly(2026, 11, 3),
        RepairUrl = "https://ternstreet.example/repairs/2026-0417",
        Complaint = Complaint,
        ConditionOnReceipt = "Light brassing, leatherette lifting at the hinge, one screw of the top plate with a chewed slot. Focus stiff.",
        CameWith = ["leather case", "lens cap", "strap, worn at the lug", "no film inside"],
        DeclaredValue = 450m,
        WantedBy = new DateOnly(2026, 12, 4),
        Shelf = "B2",
        Agreement = "Estimate first; nothing is done before you say yes.",
        Conditions =
        [
            "We look after your camera as our own and insure it up to the value declared above.",
            "A camera not collected three months after we told you it is ready may be charged for storage; we write to you first.",
            "Old parts are given back to you unless you say otherwise.",
        ],
    };

    public static readonly EstimateFacts Estimate = new()
    {
        PaperNumber = "E-2026-0231",
        IssuedAt = Issued,
        IssuedBy = "Rowan Teague",
        Shop = Shop,
        RepairNumber = "2026-0417",
        Camera = Camera,
        Revision = 2,
        Customer = Customer,
        IssueDate = new DateOnly(2026, 11, 4),
        ReceivedOn = new DateOnly(2026, 11, 3),
        Complaint = Complaint,
        Seen =
        [
            "Slow-speed escapement gummed with old grease; 1 s runs 1.4 s and stalls now and then.",
            "Shutter blades oily at the pivots, closing lazily.",
            "Focusing helical dry; a previous repairer cross-threaded one retaining screw.",
        ],
        Currency = "EUR",
        Lines =
        [
            new() { Group = LineGroup.Labour, Text = "Shutter out, cleaned, lubricated, timed", LowQuantity = 3, HighQuantity = 4, Unit = "h", UnitPrice = 58m, LowAmount = 174m, HighAmount = 232m, TaxPercent = 23 },
            new() { Group = LineGroup.Labour, Text = "Focusing helical cleaned and greased, infinity set", LowQuantity = 1, HighQuantity = 1.5m, Unit = "h", UnitPrice = 58m, LowAmount = 58m, HighAmount = 87m, TaxPercent = 23 },
            new() { Group = LineGroup.Part, Text = "Counter click spring", PartNumber = "TA0-114", Provenance = "donor camera", LowQuantity = 0, HighQuantity = 1, Unit = "pc", UnitPrice = 9.5m, LowAmount = 0m, HighAmount = 9.5m, TaxPercent = 23 },
            new() { Group = LineGroup.Material, Text = "Cleaning and lubricants", LowQuantity = 1, HighQuantity = 1, Unit = "lot", UnitPrice = 6m, LowAmount = 6m, HighAmount = 6m, TaxPercent = 23 },
        ],
        LowNet = 238m,
        HighNet = 334.5m,
        LowTaxes = [new() { Name = "VAT", Category = TaxCategory.Standard, Percent = 23, Base = 238m, Tax = 54.74m }],
        HighTaxes = [new() { Name = "VAT", Category = TaxCategory.Standard, Percent = 23, Base = 334.5m, Tax = 76.94m }],
        LowTotal = 292.74m,
        HighTotal = 411.44m,
        StripDownCharge = 45m,
        NeedsStripDown = true,
        NeedsConsent = ["Drilling out the cross-threaded screw may mark the front plate.", "The leatherette must be lifted at the hinge and may not lie as flat again."],
        ValidUntil = new DateOnly(2026, 12, 4),
        AnswerUrl = "https://ternstreet.example/answer/7Q2M-K9FD",
        Cautions = [Caution.SpringUnderTension],
        Conditions = ["The work is guaranteed for twelve months. Wear of parts we did not touch is not covered.", "Parts taken out are given back to you unless you say otherwise."],
    };

    public static readonly InvoiceFacts Invoice = new()
    {
        PaperNumber = "2026-0312",
        IssuedAt = Issued,
        IssuedBy = "Rowan Teague",
        Shop = Shop,
        RepairNumber = "2026-0417",
        Camera = Camera,
        Customer = Customer,
        IssueDate = new DateOnly(2026, 11, 24),
        SupplyDate = new DateOnly(2026, 11, 23),
        Complaint = Complaint,
        Approvals = ["Ines Halloway approved up to €411.44 on 5 November 2026 by e-mail, received by Rowan Teague."],
        Currency = "EUR",
        Lines =
        [
            new() { Group = LineGroup.Labour, Text = "Shutter out, cleaned, lubricated, timed", Quantity = 3.25m, Unit = "h", UnitPrice = 58m, Amount = 188.5m, TaxPercent = 23 },
            new() { Group = LineGroup.Labour, Text = "Focusing helical cleaned and greased, infinity set", Quantity = 1.5m, Unit = "h", UnitPrice = 58m, Amount = 87m, TaxPercent = 23 },
            new() { Group = LineGroup.Part, Text = "Counter click spring", PartNumber = "TA0-114", Provenance = "donor camera", Quantity = 1, Unit = "pc", UnitPrice = 9.5m, Amount = 9.5m, TaxPercent = 23 },
            new() { Group = LineGroup.Material, Text = "Cleaning and lubricants", Quantity = 1, Unit = "lot", UnitPrice = 6m, Amount = 6m, TaxPercent = 23 },
        ],
        Allowances = [new("Goodwill for the long wait", 10m, 23)],
        Net = 281m,
        Taxes = [new() { Name = "VAT", Category = TaxCategory.Standard, Percent = 23, Base = 281m, Tax = 64.63m }],
        TaxTotal = 64.63m,
        Total = 345.63m,
        Payments = [new(new DateOnly(2026, 11, 5), "card", "deposit", 100m)],
        Paid = 100m,
        Due = 245.63m,
        DueDate = new DateOnly(2026, 12, 8),
        Terms = "Please pay within fourteen days, or when you collect the camera.",
        WarrantyUntil = new DateOnly(2027, 11, 23),
        Notes = ["The old click spring is in the bag with the camera."],
    };

    public static readonly InvoiceFacts CreditNote = Invoice with
    {
        PaperNumber = "2026-0319",
        CreditsNumber = "2026-0312",
        CreditsIssueDate = new DateOnly(2026, 11, 24),
        CreditReason = "The invoice was made out to the wrong person.",
        Payments = [],
        Paid = 0,
        Due = 0,
        DueDate = null,
        Terms = null,
        Notes = [],
        WarrantyUntil = null,
    };

    private static readonly (string Marked, double Reference, double Before, double After, double ClosingBefore, double ClosingAfter)[] Speeds =
    [
        ("1 s", 1, 1.438, 1.021, 9.8, 4.1), ("½", 1 / 2d, 0.702, 0.508, 9.1, 3.9), ("¼", 1 / 4d, 0.341, 0.2487, 8.2, 3.6), ("1/8", 1 / 8d, 0.169, 0.1262, 7.7, 3.4),
        ("1/15", 1 / 16d, 0.0821, 0.0639, 6.6, 3.1), ("1/30", 1 / 32d, 0.0419, 0.0318, 6.1, 2.7), ("1/60", 1 / 64d, 0.0187, 0.0160, 4.9, 2.4),
        ("1/125", 1 / 128d, 0.00947, 0.00801, 3.4, 1.9), ("1/250", 1 / 256d, 0.00455, 0.00418, 2.2, 1.6), ("1/500", 1 / 512d, 0.00276, 0.00252, 1.9, 1.4),
    ];

    public static readonly ServiceRecordFacts ServiceRecord = new()
    {
        PaperNumber = "S-2026-0290",
        IssuedAt = Issued,
        IssuedBy = "Rowan Teague",
        Shop = Shop,
        RepairNumber = "2026-0417",
        Camera = Camera,
        Customer = Customer,
        IssueDate = new DateOnly(2026, 11, 24),
        ReceivedOn = new DateOnly(2026, 11, 3),
        WorkedFrom = new DateOnly(2026, 11, 12),
        WorkedTo = new DateOnly(2026, 11, 23),
        Complaint = Complaint,
        ConditionOnReceipt = "Light brassing, leatherette lifting at the hinge, one screw of the top plate with a chewed slot. Focus stiff.",
        Method = "A lamp behind the lens at full aperture, a light sensor at the centre of the film gate; the time the light stays above half of the open level.",
        AsReceivedSession = new() { MeasuredOn = new DateOnly(2026, 11, 12), Instrument = "bench timer no. 2", Source = ReadingSource.Typed, RoomCelsius = 20.5, MeasuredBy = "Rowan Teague" },
        AfterServiceSession = new() { MeasuredOn = new DateOnly(2026, 11, 23), Instrument = "bench timer no. 2", Source = ReadingSource.Typed, RoomCelsius = 21, MeasuredBy = "Rowan Teague" },
        Sampling = "Every marked speed, five exposures each, after five dry runs.",
        ReferenceRule = "Each marked speed is held against its true binary value (1/125 means 1/128 s).",
        LimitsName = "Workshop limits for between-lens shutters of this age, chosen by Rowan Teague.",
        DecisionRule = "Decision rule: within when the error and its 95 % uncertainty both lie inside the limits (guard band equal to the uncertainty, ILAC-G8:09/2019); not proven when the uncertainty reaches across a limit. The risk of a wrong “within” is below 2.5 %.",
        ShutterRows = [.. Speeds.Select(s => Row(s.Marked, s.Reference, Figures(s.Reference, s.Before, 0.022, s.ClosingBefore), Figures(s.Reference, s.After, 0.009, s.ClosingAfter)))],
        Checks =
        [
            new() { Name = "Focus at infinity", AsReceived = CheckOutcome.Faulty, AsReceivedNote = "short of the stop by 0.2 mm", AfterService = CheckOutcome.Fine },
            new() { Name = "Transport", AsReceived = CheckOutcome.Fine, AfterService = CheckOutcome.Fine },
            new() { Name = "Counter", AsReceived = CheckOutcome.Faulty, AsReceivedNote = "skips at 7", AfterService = CheckOutcome.Fine },
            new() { Name = "Self-timer run", AsReceived = CheckOutcome.NotTested, AfterService = CheckOutcome.Fine, AfterServiceNote = "9.2 s" },
            new() { Name = "Flash contact", AsReceived = CheckOutcome.Fine, AfterService = CheckOutcome.Fine },
            new() { Name = "Meter", AsReceived = CheckOutcome.NotFitted, AfterService = CheckOutcome.NotFitted },
        ],
        Gauges =
        [
            new() { Name = "Register", Unit = "mm", LowerLimit = 82.08, UpperLimit = 82.12, AsReceived = 82.3, AfterService = 82.1, Verdict = LimitVerdict.Within },
            new() { Name = "Flash contact delay", Unit = "ms", UpperLimit = 1, AsReceived = 0.6, AfterService = 0.5, Verdict = LimitVerdict.Within },
        ],
        Findings =
        [
            new() { Component = "Slow-speed escapement", Condition = "contaminated", Text = "Old grease set hard in the pallet and the last two wheels.", EvidenceOfEarlierWork = "grease put where the maker used none", ActionTaken = "stripped, cleaned in three baths, pivots oiled sparingly." },
            new() { Component = "Counter click spring", Condition = "worn", Text = "Long leg bent and thinned where it rides on the ratchet.", ActionTaken = "replaced." },
        ],
        PartsFitted = [new("TA0-114", "Counter click spring", 1, "pc", "donor camera"), new(null, "Screw M1.4 × 2, slotted", 1, "pc", "made in the workshop")],
        PartsReplaced = [new("Cell spring", 1, "cell spring, 0.2 mm", "donor camera", true)],
        NotRefitted = [new("foam strip", "perished; a new light trap does its work")],
        PartsReturned = ["click spring, old", "one cross-threaded screw"],
        LeftAlone = [new("Light haze on the rear group", "it does not show in pictures, and the cement is brittle")],
        Deviations = ["1/500 could be measured on the centre of the gate only."],
        OutsideWork = [new("Kestrel Plating, Havenmouth", "Top plate nickelled")],
        Advice = ["Run all speeds once a month; a shutter likes to be used.", "Keep it out of a hot car."],
        Cautions = [Caution.ThoriatedGlass],
        Warranty = "It covers what was done here, not parts left alone.",
        WarrantyUntil = new DateOnly(2027, 11, 23),
        AuthorisedBy = "Rowan Teague",
        AuthorisedRole = "owner",
    };

    public static readonly BenchSheetFacts BenchSheet = new()
    {
        PaperNumber = "B-2026-0417-1",
        IssuedAt = Issued,
        IssuedBy = "Rowan Teague",
        Shop = Shop,
        RepairNumber = "2026-0417",
        Camera = Camera,
        CustomerName = "Ines Halloway",
        ReceivedOn = new DateOnly(2026, 11, 3),
        WantedBy = new DateOnly(2026, 12, 4),
        Shelf = "B2",
        Complaint = Complaint,
        ConditionOnReceipt = "Light brassing, leatherette lifting at the hinge.",
        CameWith = ["leather case", "lens cap"],
        LowHours = 4,
        HighHours = 5.5m,
        ApprovedUpTo = 411.44m,
        Currency = "EUR",
        RepairUrl = "https://ternstreet.example/repairs/2026-0417",
        StripDown =
        [
            new() { Number = 1, Text = "Front ring", HeldBy = "thread, right hand", Cell = "A1" },
            new() { Number = 2, Text = "Speed ring", HeldBy = "3 screws", Cell = "A2", Mind = "note where it sits against the pin" },
            new() { Number = 3, Text = "Counter click spring, long leg outward", HeldBy = "hooked", Cell = "B4", Mind = "easily lost, no spare", IsBack = true },
            new() { Number = 4, Text = "Slow-speed escapement", HeldBy = "2 screws", Cell = "B1" },
        ],
        Readings = [.. Speeds.Select(s => new ReadingToTakeFacts(s.Marked, s.Reference, s.Reference * Math.Pow(2, -0.3), s.Reference * Math.Pow(2, 0.3)))],
        Checks = ["Focus at infinity", "Transport", "Counter", "Self-timer run", "Flash contact", "Light-tightness", "Aperture"],
        Cautions = [Caution.FlammableSolvent, Caution.SpringUnderTension],
        Notes = ["The short screw goes under the dial.", "Needs the 32 mm ring spanner with narrow pins."],
    };

    public static readonly TrayLabelFacts TrayLabel = new()
    {
        PaperNumber = "2026-0417-Y1",
        IssuedAt = Issued,
        IssuedBy = "Rowan Teague",
        Shop = Shop,
        RepairNumber = "2026-0417",
        Camera = Camera,
        StripDownUrl = "https://ternstreet.example/repairs/2026-0417/strip-down",
        Trays = [new("1", 4, 6, ["B3", "D6"]), new("magnetic lid", 12, 20, [])],
    };

    public static readonly StatementFacts Statement = new()
    {
        PaperNumber = "S-2026-0004",
        IssuedAt = Issued,
        IssuedBy = "Rowan Teague",
        Shop = Shop,
        Customer = Customer,
        From = new DateOnly(2026, 9, 1),
        Until = new DateOnly(2026, 11, 24),
        Currency = "EUR",
        Opening = 120,
        Lines =
        [
            new(new DateOnly(2026, 9, 4), StatementLineKind.Payment, "I-2026-0031", "Transfer 2026-0388", -80, 40),
            new(new DateOnly(2026, 9, 18), StatementLineKind.Invoice, "I-2026-0037", "", 212.35m, 252.35m),
            new(new DateOnly(2026, 10, 2), StatementLineKind.Payment, "", "statement 9", -250, 2.35m),
            new(new DateOnly(2026, 10, 30), StatementLineKind.Invoice, "I-2026-0042", "", 98.40m, 100.75m),
            new(new DateOnly(2026, 11, 3), StatementLineKind.CreditNote, "C-2026-0003", "", -12.30m, 88.45m),
            new(new DateOnly(2026, 11, 20), StatementLineKind.WriteOff, "I-2026-0031", "", -2.35m, 86.10m),
        ],
        Closing = 86.10m,
        Ages = new AgesFacts(0, 86.10m, 0, 0, 0),
    };

    public static readonly ReminderFacts Reminder = new()
    {
        PaperNumber = "R-2026-0007",
        IssuedAt = Issued,
        IssuedBy = "Rowan Teague",
        Shop = Shop,
        Customer = Customer,
        IssueDate = new DateOnly(2026, 11, 24),
        Title = "Second reminder",
        Text = "Dear Ines Halloway,\n\nwe have not yet seen your payment of what is listed below. Please transfer €103.10 by 8 December 2026.\n\nIs something wrong with the bill, or with the camera? Tell us, so that it can be put right.\n\nKind regards\nTern Street Cameras",
        Currency = "EUR",
        Lines = [new("I-2026-0042", new(2026, 10, 14), new(2026, 10, 28), 188.45m, 80, 12.35m, 0, 96.10m, 27)],
        Due = 96.10m,
        Fee = 4,
        EarlierFees = [new("R-2026-0002", new(2026, 11, 5), 3)],
        Total = 103.10m,
        PayBy = new DateOnly(2026, 12, 8),
        PaymentReference = "RF07I20260042",
    };

    /// <summary>One paper of each kind.</summary>
    public static IEnumerable<(PaperKind Kind, PaperFacts Facts)> All =>
    [
        (PaperKind.ClaimTag, ClaimTag), (PaperKind.ClaimTagPage, ClaimTag), (PaperKind.Estimate, Estimate), (PaperKind.ServiceRecord, ServiceRecord),
        (PaperKind.Invoice, Invoice), (PaperKind.CreditNote, CreditNote), (PaperKind.BenchSheet, BenchSheet),
        (PaperKind.TrayLabel, TrayLabel), (PaperKind.Statement, Statement), (PaperKind.Reminder, Reminder),
    ];

    public static InvoiceFacts InvoiceOf(int lines) => Invoice with
    {
        Lines = [.. Enumerable.Range(1, lines).Select(n => new LineFacts { Group = n % 5 == 0 ? LineGroup.Part : LineGroup.Labour, Text = $"Work item {n}, as found on the bench", Quantity = 1, Unit = "h", UnitPrice = 10m, Amount = 10m, TaxPercent = 23 })],
        Allowances = [],
        Net = 10m * lines,
        Taxes = [new() { Name = "VAT", Category = TaxCategory.Standard, Percent = 23, Base = 10m * lines, Tax = 2.3m * lines }],
        TaxTotal = 2.3m * lines,
        Total = 12.3m * lines,
        Payments = [],
        Paid = 0,
        Due = 12.3m * lines,
    };

    private static ShutterRowFacts Row(string marked, double reference, SpeedFiguresFacts before, SpeedFiguresFacts after) => new()
    {
        MarkedSpeed = marked,
        ReferenceSeconds = reference,
        LowerLimitStops = reference < 1 / 128d ? -0.45 : -0.3,
        UpperLimitStops = reference < 1 / 128d ? 0.45 : 0.3,
        AsReceived = before,
        AfterService = after,
    };

    private static SpeedFiguresFacts Figures(double reference, double mean, double scatter, double closing)
    {
        var limit = reference < 1 / 128d ? 0.45 : 0.3;
        var error = Math.Log2(mean / reference);
        // Five exposures: Student t for four degrees of freedom is 2.776 (standard tables, from memory).
        var uncertainty = 2.776 * scatter * mean / Math.Sqrt(5);
        var stops = uncertainty / mean / Math.Log(2);
        return new SpeedFiguresFacts
        {
            Count = 5,
            MeanSeconds = mean,
            DeviationSeconds = scatter * mean,
            ExpandedUncertaintySeconds = uncertainty,
            ErrorStops = error,
            UncertaintyStops = stops,
            SpreadStops = scatter * 3.3,
            ClosingMilliseconds = closing,
            Verdict = (Math.Abs(error) <= limit, Math.Abs(Math.Abs(error) - limit) >= stops) switch
            {
                (true, true) => LimitVerdict.Within,
                (true, false) => LimitVerdict.WithinNotProven,
                (false, false) => LimitVerdict.OutsideNotProven,
                (false, true) => LimitVerdict.Outside,
            },
        };
    }
}
