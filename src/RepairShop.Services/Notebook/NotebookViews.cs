using RepairShop.Domain.Notebook;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;

namespace RepairShop.Services.Notebook;

/// <summary>One line of the list of models.</summary>
public sealed record ModelLine(Guid Id, string Maker, string Model, int Variants, int Entries, int? Guide);

/// <summary>All of one model that its pages show.</summary>
public sealed record ModelPageView
{
    public required Guid Id { get; init; }
    public required string Name { get; init; }
    public required ModelTyped Head { get; init; }
    public required bool IsRemoved { get; init; }
    public required IReadOnlyList<VariantView> Variants { get; init; }

    /// <summary>In the order of their kinds, then as written.</summary>
    public required IReadOnlyList<EntryView> Entries { get; init; }
    public required GuideView? Guide { get; init; }
    public required IReadOnlyList<ModelPhotoView> Photos { get; init; }
    public required WorkshopFigures Workshop { get; init; }

    /// <summary>The cautions chosen and those the page's own words call for.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    public IEnumerable<EntryView> Of(EntryKind kind) => Entries.Where(entry => entry.Typed.Kind == kind);
}

/// <summary>The head of a page as typed.</summary>
/// <param name="MarkedSpeeds">As one text: "1 1/2 1/4 … B".</param>
/// <param name="Version">Of the page when the form was opened; 0 for a new one.</param>
public sealed record ModelTyped(string Maker, string Model, string MarkedSpeeds, string Notes, uint Version);

public sealed record VariantTyped(string Name, string Traits, string Note, uint Version);

public sealed record VariantView(Guid Id, VariantTyped Typed);

public sealed record EntryTyped(
    EntryKind Kind, string Title, string Text, string Link, Caution? Caution, string Unit, double? Low, double? High, uint Version);

/// <param name="Met">In how many repairs of the model the fault was found; null for other kinds.</param>
/// <param name="Measured">What this workshop measured of the gauge; null when nothing or for other kinds.</param>
public sealed record EntryView(Guid Id, EntryTyped Typed, int? Met, MeasuredHere? Measured);

public sealed record ModelPhotoView(Guid Id, string Caption, int Width, int Height);

/// <summary>One version of a guide.</summary>
/// <param name="FromRepair">Number of the repair it was taken from; null for one written by hand or brought in.</param>
public sealed record GuideView(
    int Number, int Newest, IReadOnlyList<GuideStep> Steps, string Note, string? FromRepair, DateTimeOffset SavedAt, string SavedBy);

/// <summary>One line of a guide's history.</summary>
public sealed record GuideLine(int Number, string Note, string? FromRepair, DateTimeOffset SavedAt, string SavedBy);

/// <summary>What this workshop's own book says of a model: counted, never typed.</summary>
/// <param name="Repairs">Repairs of the model, in every stage.</param>
/// <param name="WithFindings">Those in which something was written down about a component.</param>
/// <param name="Faults">Components found other than sound, the most met first.</param>
/// <param name="Earlier">The latest repairs of the model.</param>
public sealed record WorkshopFigures(
    int Repairs, int WithFindings, IReadOnlyList<FaultMet> Faults, IReadOnlyList<MeasuredHere> Gauges, IReadOnlyList<EarlierRepair> Earlier);

/// <param name="Repairs">In how many repairs, however many findings in one.</param>
public sealed record FaultMet(string Component, int Repairs);

/// <summary>Values of one gauge in one unit as findings hold them.</summary>
public sealed record MeasuredHere(string Name, string Unit, int Count, double Lowest, double Highest);

public sealed record EarlierRepair(string Number, DateTimeOffset BookedAt, string Complaint, Stage Stage);

/// <summary>From a repair to its model's page.</summary>
/// <param name="PageId">Null when the notebook has no page for the model yet.</param>
/// <param name="Guide">The newest version's number; null when there is no guide.</param>
public sealed record NotebookLink(Guid? PageId, string Maker, string Model, int? Guide, int Cautions);

/// <summary>What uploading pictures came to.</summary>
public sealed record ModelPhotosTaken(int Count, IReadOnlyList<Failure> Refused);
