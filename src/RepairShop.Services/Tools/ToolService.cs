using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Tools;
using RepairShop.Services.Database;

namespace RepairShop.Services.Tools;

/// <summary>The register of special tools.</summary>
public sealed class ToolService(ShopDb db, TimeProvider clock)
{
    private const int MostFitting = 20;

    private static readonly Expression<Func<Tool, ToolLine>> Line = row =>
        new ToolLine(row.Id, row.Name, row.Kind, row.Fits, row.Place, row.Unit, row.Spanner, row.OtherMeasures);

    public async Task<Register<ToolLine>> ListAsync(RegisterQuestion question, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(question);
        var inside = RegisterPages.Inside(question.Text);
        var found = db.Database.SqlQuery<Guid>(
            $"""select id as "Value" from tools where shop_fold(concat_ws(' ', name, fits, place, other_measures)) like shop_fold({inside})""");
        return await db.Tools.AsNoTracking().Where(row => found.Contains(row.Id) && (row.RetiredAt != null) == question.Retired)
            .OrderBy(row => row.Name).ThenBy(row => row.Id)
            .PageAsync(question.Page, Line, cancel);
    }

    /// <summary>Ring spanners in use, to choose one from.</summary>
    public async Task<IReadOnlyList<ToolLine>> RingSpannersAsync(CancellationToken cancel) =>
        await db.Tools.AsNoTracking().Where(row => row.RetiredAt == null && row.Kind == ToolKind.RingSpanner)
            .OrderBy(row => row.Name).ThenBy(row => row.Id).Select(Line).ToListAsync(cancel);

    /// <summary>Tools in use of which is written that they fit a model.</summary>
    public async Task<IReadOnlyList<ToolLine>> FittingAsync(string model, CancellationToken cancel)
    {
        var inside = RegisterPages.Inside(model);
        var found = db.Database.SqlQuery<Guid>($"""select id as "Value" from tools where shop_fold(fits) like shop_fold({inside})""");
        return await db.Tools.AsNoTracking().Where(row => found.Contains(row.Id) && row.RetiredAt == null)
            .OrderBy(row => row.Name).ThenBy(row => row.Id).Take(MostFitting).Select(Line).ToListAsync(cancel);
    }

    public async Task<Result<ToolView>> GetAsync(Guid id, CancellationToken cancel)
    {
        var tool = await db.Tools.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel);
        return tool is null
            ? new ToolNotFound()
            : new ToolView(
                tool.Id,
                new ToolTyped(tool.Name, tool.Kind, tool.Fits, tool.Place, tool.Notes, tool.Unit, tool.Spanner, tool.OtherMeasures, tool.Version),
                tool.RetiredAt is not null);
    }

    public async Task<Result<Guid>> AddAsync(ToolTyped typed, CancellationToken cancel)
    {
        var tool = new Tool { CreatedAt = clock.GetUtcNow() };
        if (Fill(tool, typed) is { } refused)
            return refused;
        db.Tools.Add(tool);
        var saved = await db.SaveAsync(cancel);
        return saved.IsDone ? tool.Id : saved.Failure;
    }

    public async Task<Result> ChangeAsync(Guid id, ToolTyped typed, CancellationToken cancel)
    {
        var tool = await db.Tools.SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (tool is null)
            return new ToolNotFound();
        db.Entry(tool).Property(row => row.Version).OriginalValue = typed.Version;
        return Fill(tool, typed) is { } refused ? refused : await db.SaveAsync(cancel);
    }

    public Task<Result> RetireAsync(Guid id, CancellationToken cancel) => SetRetiredAsync(id, clock.GetUtcNow(), cancel);

    public Task<Result> BringBackAsync(Guid id, CancellationToken cancel) => SetRetiredAsync(id, null, cancel);

    private async Task<Result> SetRetiredAsync(Guid id, DateTimeOffset? at, CancellationToken cancel)
    {
        var tool = await db.Tools.SingleOrDefaultAsync(row => row.Id == id, cancel);
        if (tool is null)
            return new ToolNotFound();
        tool.RetiredAt = at is null ? null : tool.RetiredAt ?? at;
        return await db.SaveAsync(cancel);
    }

    private static Failure? Fill(Tool tool, ToolTyped typed)
    {
        tool.Name = typed.Name.Trim();
        tool.Kind = typed.Kind;
        tool.Fits = typed.Fits.Trim();
        tool.Place = typed.Place.Trim();
        tool.Notes = typed.Notes.Trim();
        tool.Unit = typed.Unit;
        tool.Spanner = typed.Spanner;
        tool.OtherMeasures = typed.OtherMeasures.Trim();
        return ToolRules.WhyNot(tool);
    }
}
