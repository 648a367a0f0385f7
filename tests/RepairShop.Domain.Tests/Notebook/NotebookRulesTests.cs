using System.Globalization;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.StripDown;
using Xunit;

namespace RepairShop.Domain.Tests.Notebook;

public sealed class NotebookRulesTests
{
    private static readonly CultureInfo German = CultureInfo.GetCultureInfo("de-DE");

    [Fact]
    public void A_page_needs_a_model_and_may_do_without_a_maker()
    {
        Assert.IsType<ModelUnnamed>(NotebookRules.WhyNot(new ModelPage { Maker = "Orrevale" }));
        Assert.Null(NotebookRules.WhyNot(new ModelPage { Model = "Pelter" }));
    }

    [Fact]
    public void A_caution_is_one_of_the_usual_or_in_own_words_every_other_entry_has_a_name()
    {
        Assert.IsType<CautionUnnamed>(NotebookRules.WhyNot(new ModelEntry { Kind = EntryKind.Caution }));
        Assert.Null(NotebookRules.WhyNot(new ModelEntry { Kind = EntryKind.Caution, Caution = Caution.SeleniumCell }));
        Assert.Equal(new EntryUnnamed(EntryKind.Tool), NotebookRules.WhyNot(new ModelEntry { Kind = EntryKind.Tool }));
    }

    [Theory]
    [InlineData("", true)]
    [InlineData("https://example.com/spanner", true)]
    [InlineData("http://example.com", true)]
    [InlineData("javascript:alert(1)", false)]
    [InlineData("ftp://example.com", false)]
    [InlineData("drawer 4", false)]
    public void A_link_leads_to_the_web_or_nowhere(string link, bool taken) =>
        Assert.Equal(taken, NotebookRules.WhyNot(new ModelEntry { Kind = EntryKind.Tool, Title = "Spanner", Link = link }) is null);

    [Fact]
    public void Limits_may_be_equal_or_go_over_twelve_on_a_clock_but_not_cross()
    {
        Assert.Null(NotebookRules.WhyNot(Gauge("mm", 44.96, 44.96)));
        Assert.Equal(new LimitsCrossed(12, 8), NotebookRules.WhyNot(Gauge("s", 12, 8)));
        Assert.Null(NotebookRules.WhyNot(Gauge(GaugeLimits.Clock, 11, 1)));
    }

    [Theory]
    [InlineData("s", 8.0, 12.0, "8 to 12 s")]
    [InlineData("mm", null, 0.5, "at most 0,5 mm")]
    [InlineData("", 2.0, null, "at least 2")]
    [InlineData("mm", null, null, "no limits yet")]
    [InlineData("mm", 0.15, 0.15, "0,15 mm")]
    [InlineData("o'clock", 10.5, 11.0, "10:30 to 11:00 o'clock")]
    public void Limits_are_written_as_people_say_them(string unit, double? low, double? high, string written) =>
        Assert.Equal(written, GaugeLimits.Write(unit, low, high, German).Replace('\u00A0', ' '));

    [Theory]
    [InlineData("o'clock")]
    [InlineData("O’Clock ")]
    [InlineData("o clock")]
    [InlineData("clock")]
    public void Every_way_of_writing_o_clock_is_one_unit(string typed) => Assert.Equal(GaugeLimits.Clock, GaugeLimits.UnitOf(typed));

    [Fact]
    public void Any_other_unit_stays_as_typed() => Assert.Equal("clock ticks", GaugeLimits.UnitOf(" clock ticks "));

    [Fact]
    public void Traits_are_kept_once_with_blanks_put_right_and_a_line_without_a_colon_is_named()
    {
        Assert.Equal("rewind: crank\nrewind: knob", NotebookRules.Traits("  rewind :crank\r\nRewind: Crank\n\nrewind: knob").Value);
        Assert.Equal(new TraitNotUnderstood("crank"), NotebookRules.Traits("rewind: knob\ncrank").Failure);
        Assert.Equal("speeds: 1:2", NotebookRules.Traits("speeds: 1:2").Value);
    }

    [Fact]
    public void A_guide_keeps_the_rules_of_the_record_and_says_which_step_breaks_one()
    {
        Assert.IsType<GuideEmpty>(GuideRules.Check([]).Failure);
        Assert.IsType<GuideTooLong>(GuideRules.Check([.. Enumerable.Repeat(new GuideStep { What = "Screw" }, 1001)]).Failure);
        var wrong = Assert.IsType<GuideStepWrong>(GuideRules.Check([new() { What = "Front ring" }, new() { What = " " }]).Failure);
        Assert.Equal((1, "Steps[1].What"), (wrong.Index, wrong.Field));
        Assert.IsType<WhatCameOffMissing>(wrong.Why);
        Assert.Equal("Front ring", Assert.Single(GuideRules.Check([new() { What = " Front ring " }]).Value!).What);
    }

    private static ModelEntry Gauge(string unit, double low, double high) =>
        new() { Kind = EntryKind.Gauge, Title = "Run", Unit = unit, Low = low, High = high };
}
