using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Recordings;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Recordings;

namespace RepairShop.Web.Pages.Recordings;

/// <summary>How a recording was made, as it stands in a form: each channel's role, the coupling, the fully open level.</summary>
public sealed class RigInput
{
    public const int Channels = 4;

    public List<ChannelRole> Roles { get; set; } = [ChannelRole.Light, ChannelRole.Unused, ChannelRole.Unused, ChannelRole.Unused];

    public InputCoupling Coupling { get; set; }

    [Range(1, 1000, ErrorMessage = "Reference: exposures are counted from 1.")]
    public int? Reference { get; set; }

    public Guid? CarriedFrom { get; set; }

    public double? FrameWidth { get; set; }

    public FlashContactKind Flash { get; set; }

    public static IReadOnlyList<SelectListItem> RoleItems { get; } =
        [.. RigWords.Roles.OrderBy(role => role == ChannelRole.Unused).Select(role => new SelectListItem(RigWords.Of(role), role.ToString()))];

    public static IReadOnlyList<SelectListItem> CouplingItems { get; } =
        [.. Enum.GetValues<InputCoupling>().Select(coupling => new SelectListItem(RigWords.Of(coupling), coupling.ToString()))];

    public static IReadOnlyList<SelectListItem> FlashItems { get; } =
    [
        new("Not judged", nameof(FlashContactKind.NotStated)), new("X", nameof(FlashContactKind.X)), new("M", nameof(FlashContactKind.M)),
    ];

    public RigFacts Facts()
    {
        var used = Roles.FindLastIndex(role => role != ChannelRole.Unused) + 1;
        return new RigFacts
        {
            Roles = [.. Roles.Take(Math.Max(1, used))],
            Coupling = Coupling,
            Reference = Reference,
            CarriedFrom = Reference is null ? CarriedFrom : null,
            FrameWidthMm = FrameWidth ?? 36,
            Flash = Flash,
        };
    }

    public static RigInput Of(RigFacts facts) => new()
    {
        Roles = [.. facts.Roles.Concat(Enumerable.Repeat(ChannelRole.Unused, Channels)).Take(Math.Max(Channels, facts.Roles.Count))],
        Coupling = facts.Coupling,
        Reference = facts.Reference,
        CarriedFrom = facts.CarriedFrom,
        FrameWidth = facts.FrameWidthMm,
        Flash = facts.Flash,
    };
}
