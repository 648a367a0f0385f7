using RepairShop.Domain.Results;
using RepairShop.Services.Tools;

namespace RepairShop.Web.Pages.Tools;

public sealed class MountModel(MountService mounts) : ToolRoomPage<MountInput>("Mount", "Mounts")
{
    public MountView Mount { get; private set; } = null!;

    public IReadOnlyList<string> Cameras { get; private set; } = [];

    protected override async Task<MountInput?> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await mounts.GetAsync(id, ct);
        if (!found.IsDone)
            return null;
        (Mount, Cameras) = (found.Value, await mounts.CamerasAsync(ct));
        return MountInput.Of(Mount.Typed);
    }

    protected override Task<Result> ChangeAsync(Guid id, CancellationToken ct) => mounts.ChangeAsync(id, Input.Typed(), ct);

    protected override Task<Result> RetireAsync(Guid id, CancellationToken ct) => mounts.RetireAsync(id, ct);

    protected override Task<Result> BringBackAsync(Guid id, CancellationToken ct) => mounts.BringBackAsync(id, ct);
}
