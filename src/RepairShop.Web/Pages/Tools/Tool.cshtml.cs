using RepairShop.Domain.Results;
using RepairShop.Services.Tools;

namespace RepairShop.Web.Pages.Tools;

public sealed class ToolModel(ToolService tools) : ToolRoomPage<ToolInput>("Tool", "Index")
{
    public ToolView Tool { get; private set; } = null!;

    protected override async Task<ToolInput?> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await tools.GetAsync(id, ct);
        if (!found.IsDone)
            return null;
        Tool = found.Value;
        return ToolInput.Of(Tool.Typed);
    }

    protected override Task<Result> ChangeAsync(Guid id, CancellationToken ct) => tools.ChangeAsync(id, Input.Typed(), ct);

    protected override Task<Result> RetireAsync(Guid id, CancellationToken ct) => tools.RetireAsync(id, ct);

    protected override Task<Result> BringBackAsync(Guid id, CancellationToken ct) => tools.BringBackAsync(id, ct);
}
