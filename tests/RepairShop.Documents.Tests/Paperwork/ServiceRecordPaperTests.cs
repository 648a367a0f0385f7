using RepairShop.Documents.Paperwork;
using RepairShop.Documents.Photos;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

/// <summary>ISO/IEC 17025:2017, 7.8.2.1 a–p as a list of what a record should say. The paper itself never claims the number.</summary>
public class ServiceRecordPaperTests
{
    private static string Text(ServiceRecordFacts facts) => ReadBack.PdfToText(PaperRenderer.Render(PaperKind.ServiceRecord, facts)).Replace('\u00A0', ' ');

    private static readonly string Record = Text(Sample.ServiceRecord);

    [Fact]
    public void A_a_title() => Assert.StartsWith("Service record", Record, StringComparison.Ordinal);

    [Fact]
    public void B_name_and_address_of_the_workshop() => Says("Tern Street Cameras", "14 Tern Street", "Havenmouth HM4 2QT");

    [Fact]
    public void C_where_the_work_was_done() => Assert.Contains("Place of work At the customer’s museum", Text(Sample.ServiceRecord with { PlaceOfWork = "At the customer’s museum" }));

    [Fact]
    public void D_a_unique_number_on_every_part_and_a_clear_end()
    {
        var pages = ReadBack.Pages(PaperRenderer.Render(PaperKind.ServiceRecord, Sample.ServiceRecord));
        Assert.All(pages, page => Assert.Contains("S-2026-0290", page));
        Says("End of service record S-2026-0290");
    }

    [Fact]
    public void E_the_customer_and_how_to_reach_them() => Says("Ines Halloway", "Quay Lane", "ines@example.com");

    [Fact]
    public void F_the_method_and_the_instrument() => Says("A lamp behind the lens at full aperture", "bench timer no. 2", "room 20.5 °C");

    [Fact]
    public void G_what_the_item_is_and_its_condition() => Says("Orrevale Pelter IIb", "Body no. 218446", "no. 90331", "no. T 55120", "Light brassing, leatherette lifting");

    [Fact]
    public void H_when_it_was_received() => Says("Received 3 November 2026");

    [Fact]
    public void I_when_the_work_was_done() => Says("12 November 2026 –", "23 November 2026", "As received, 12 November 2026", "After service, 23 November 2026");

    [Fact]
    public void J_when_it_was_issued() => Says("Issued 24 November 2026");

    [Fact]
    public void K_how_the_exposures_were_chosen() => Says("Every marked speed, five exposures each, after five dry runs.");

    [Fact]
    public void L_that_results_relate_only_to_this_camera() => Says("The results relate only to this camera");

    [Fact]
    public void M_results_with_units_and_uncertainty() =>
        Says("times in milliseconds", "± is the expanded uncertainty of the mean for 95 %", "Error is in stops", "82.3 mm");

    [Fact]
    public void N_what_was_done_differently() => Says("1/500 could be measured on the centre of the gate only.");

    [Fact]
    public void O_who_stands_for_it() => Says("Authorised by", "Rowan Teague, owner, 24 November 2026, 15:05");

    [Fact]
    public void P_what_others_did_is_marked_as_theirs() => Says("Work by others", "Top plate nickelled, by Kestrel Plating, Havenmouth");

    [Fact]
    public void The_decision_rule_and_the_limits_are_named() => Says("Decision rule: within when", "chosen by Rowan Teague", "−0.30 to +0.30 stops at 1 s", "−0.45 to +0.45 stops at 1/250, 1/500");

    [Fact]
    public void It_claims_no_standard()
    {
        Says("The limits are the workshop’s own. The readings are no measurement to ISO 516");
        Assert.DoesNotContain("17025", Record);
        Assert.DoesNotMatch("(?i)pass", Record);
    }

    [Fact]
    public void Before_and_after_stand_side_by_side_with_their_verdicts()
    {
        var row = Record[Record.IndexOf("1/125 7.81", StringComparison.Ordinal)..];
        Assert.StartsWith("1/125 7.81 9.47 0.26 +0.28 ◊ within, not proven 8.010 0.090 +0.04 ✓ within", Closed(row), StringComparison.Ordinal);
    }

    /// <summary>Figure spaces that make up for missing decimals read back as spaces.</summary>
    private static string Closed(string text) => string.Join(' ', text.Split([' ', '\u2007', '\u2008'], StringSplitOptions.RemoveEmptyEntries));

    [Fact]
    public void A_speed_that_could_not_be_measured_says_so()
    {
        var rows = Sample.ServiceRecord.ShutterRows.Select((row, i) => i == 9 ? row with { AfterService = null } : row).ToList();
        Assert.Contains("not measured", Text(Sample.ServiceRecord with { ShutterRows = rows }));
        Assert.DoesNotContain("not measured", Record);
    }

    [Fact]
    public void A_single_reading_has_no_uncertainty_and_is_not_judged()
    {
        var one = new SpeedFiguresFacts { Count = 1, MeanSeconds = 0.0091, ErrorStops = 0.22 };
        var text = Closed(Text(Sample.ServiceRecord with { ShutterRows = [Sample.ServiceRecord.ShutterRows[7] with { AsReceived = one, AfterService = null }] }));
        Assert.Contains("1/125 7.81 9.10 – +0.22 not judged", text);
    }

    [Fact]
    public void A_record_without_shutter_readings_still_says_how_it_was_worked()
    {
        var text = Text(Sample.ServiceRecord with { ShutterRows = [], AsReceivedSession = null, AfterServiceSession = null });
        Assert.Contains("Method A lamp behind the lens", text);
        Assert.DoesNotContain("Shutter times", text);
    }

    [Fact]
    public void Findings_parts_and_what_was_left_alone_are_told_with_their_reasons() => Says(
        "Slow-speed escapement, contaminated", "Earlier work: grease put where the maker used none", "Done: replaced.", "donor camera", "made in the workshop",
        "click spring, old", "Light haze on the rear group: it does not show in pictures", "Run all speeds once a month", "Warranty on this work until 23 November 2027.");

    [Fact]
    public void Photos_are_printed_with_their_captions_and_a_missing_one_leaves_no_gap()
    {
        var jpeg = PhotoIntake.Take(TestPictures.Jpeg(640, 480), "a.jpg").Value!.Jpeg;
        var finding = Sample.ServiceRecord.Findings[0] with { Photos = [new("aa", "Grease on the pallet"), new("bb", "Never uploaded")] };
        var paper = PaperRenderer.Render(PaperKind.ServiceRecord, Sample.ServiceRecord with { Findings = [finding] }, new Dictionary<string, byte[]> { ["aa"] = jpeg });
        Assert.Contains("Grease on the pallet", ReadBack.PdfToText(paper));
        Assert.DoesNotContain("Never uploaded", ReadBack.PdfToText(paper));
        var images = ReadBack.Run("pdfimages", paper.Pdf, "-list", "{}").Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(2).ToList();
        Assert.Contains(" 640 ", Assert.Single(images));
        Assert.Contains(" jpeg ", images[0]);
    }

    private static void Says(params string[] expected)
    {
        foreach (var words in expected)
            Assert.Contains(words, Record);
    }
}
