using RepairShop.Domain.Checks;

namespace RepairShop.Web.Pages.Work;

/// <summary>Phases as they stand in addresses: as-received, during-work, after-service.</summary>
public static class Phases
{
    public static IReadOnlyList<Phase> All { get; } = Enum.GetValues<Phase>();

    public static string Path(Phase phase) => CheckWords.Of(phase).Replace(' ', '-');

    public static Phase? Read(string path) =>
        All.Where(phase => Path(phase).Equals(path, StringComparison.OrdinalIgnoreCase)).Select(phase => (Phase?)phase).FirstOrDefault();
}
