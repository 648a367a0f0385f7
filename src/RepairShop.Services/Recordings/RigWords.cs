using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>Channels' roles and input couplings by name.</summary>
public static class RigWords
{
    public static IReadOnlyList<ChannelRole> Roles { get; } = Enum.GetValues<ChannelRole>();

    /// <summary>As the command line and JSON name it: light, light-first, light-last, contact, unused.</summary>
    public static string Name(ChannelRole role) => role switch
    {
        ChannelRole.Light => "light",
        ChannelRole.LightFirstEdge => "light-first",
        ChannelRole.LightLastEdge => "light-last",
        ChannelRole.FlashContact => "contact",
        _ => "unused",
    };

    public static ChannelRole? Read(string name) =>
        Roles.Where(role => Name(role).Equals(name.Trim(), StringComparison.OrdinalIgnoreCase)).Select(role => (ChannelRole?)role).FirstOrDefault();

    /// <summary>As a person reads it.</summary>
    public static string Of(ChannelRole role) => role switch
    {
        ChannelRole.Light => "Light, at the centre",
        ChannelRole.LightFirstEdge => "Light, near the edge uncovered first",
        ChannelRole.LightLastEdge => "Light, near the edge uncovered last",
        ChannelRole.FlashContact => "Flash contact",
        _ => "Not used",
    };

    public static string Of(InputCoupling coupling) => coupling switch
    {
        InputCoupling.Ac => "AC: through a capacitor, as every sound input",
        InputCoupling.Dc => "DC: straight through",
        _ => "Not known: find out",
    };
}
