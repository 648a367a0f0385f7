using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Findings;
using RepairShop.Services.Findings;

namespace RepairShop.Web.Pages.Findings;

/// <summary>The form of one finding, new or old.</summary>
public sealed class FindingInput
{
    [StringLength(200)]
    public string? Component { get; set; }

    public Condition Condition { get; set; }

    [StringLength(4000)]
    public string? Text { get; set; }

    [StringLength(4000)]
    public string? EarlierWork { get; set; }

    [StringLength(200)]
    public string? GaugeName { get; set; }

    public double? GaugeValue { get; set; }

    [StringLength(20)]
    public string? GaugeUnit { get; set; }

    public double? GaugeLow { get; set; }

    public double? GaugeHigh { get; set; }

    [StringLength(4000)]
    public string? ActionTaken { get; set; }

    public bool OnServiceRecord { get; set; } = true;

    public uint Version { get; set; }

    public Guid Once { get; set; } = Guid.CreateVersion7();

    public FindingTyped Typed() => new(
        Component ?? "", Condition, Text ?? "", EarlierWork ?? "", GaugeName ?? "", GaugeValue, GaugeUnit ?? "", GaugeLow, GaugeHigh,
        ActionTaken ?? "", OnServiceRecord, Version);

    public static FindingInput Of(FindingTyped typed) => new()
    {
        Component = typed.Component,
        Condition = typed.Condition,
        Text = typed.Text,
        EarlierWork = typed.EarlierWork,
        GaugeName = typed.GaugeName,
        GaugeValue = typed.GaugeValue,
        GaugeUnit = typed.GaugeUnit,
        GaugeLow = typed.GaugeLow,
        GaugeHigh = typed.GaugeHigh,
        ActionTaken = typed.ActionTaken,
        OnServiceRecord = typed.OnServiceRecord,
        Version = typed.Version,
    };
}
