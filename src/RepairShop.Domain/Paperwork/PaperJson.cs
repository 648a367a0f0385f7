using System.Text.Json;
using System.Text.Json.Serialization;

namespace RepairShop.Domain.Paperwork;

/// <summary>The one way facts are written and read back: enums by name, so that a reordered enum cannot change an old paper.</summary>
public static class PaperJson
{
    public static readonly JsonSerializerOptions Options = new()
    {
        Converters = { new JsonStringEnumConverter() },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    public static string Write(PaperFacts facts) => JsonSerializer.Serialize(facts, facts.GetType(), Options);

    public static PaperFacts Read(PaperKind kind, string json) =>
        (PaperFacts)(JsonSerializer.Deserialize(json, TypeOf(kind), Options)
            ?? throw new JsonException($"The frozen facts of a {kind} are empty."));

    /// <summary>Which record holds the facts of a paper of this kind.</summary>
    public static Type TypeOf(PaperKind kind) => kind switch
    {
        PaperKind.ClaimTag or PaperKind.ClaimTagPage => typeof(ClaimTagFacts),
        PaperKind.Estimate => typeof(EstimateFacts),
        PaperKind.ServiceRecord => typeof(ServiceRecordFacts),
        PaperKind.Invoice or PaperKind.CreditNote => typeof(InvoiceFacts),
        PaperKind.BenchSheet => typeof(BenchSheetFacts),
        PaperKind.TrayLabel => typeof(TrayLabelFacts),
        PaperKind.Statement => typeof(StatementFacts),
        PaperKind.Reminder => typeof(ReminderFacts),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such paper."),
    };
}
