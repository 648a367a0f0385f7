using RepairShop.Domain.Results;
using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Gauges;

namespace RepairShop.Domain.Worksheets;

/// <summary>What was typed about an unhooked spring.</summary>
/// <param name="Place">Where its end rests, as on a clock's face with the mark at twelve: 2:30.</param>
/// <param name="Anticlockwise">The spring opens anticlockwise as seen.</param>
/// <param name="AsNew">Where a new one rests; the three places empty for common practice.</param>
/// <param name="Serviceable">Where a serviceable one rests.</param>
/// <param name="Tired">Where a tired one rests.</param>
public sealed record SpringTyped(string Place, bool Anticlockwise, string AsNew, string Serviceable, string Tired);

/// <summary>A spring at rest, worked out.</summary>
/// <param name="Seen">As it was seen.</param>
/// <param name="End">As if it opened clockwise: what is judged.</param>
public sealed record SpringWorked(ClockPosition Seen, ClockPosition End, SpringState State, SpringPlaces Places, bool Anticlockwise, WorksheetFinding Finding);

public static class SpringSheet
{
    public static Result<SpringWorked> Work(SpringTyped typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var values = new SheetValues();
        var seen = Place(values, typed.Place, "Place", "Where the end rests", null);
        var common = SpringPlaces.CommonPractice;
        var places = new[]
        {
            Place(values, typed.AsNew, "AsNew", "As new", common.AsNew),
            Place(values, typed.Serviceable, "Serviceable", "Serviceable", common.Serviceable),
            Place(values, typed.Tired, "Tired", "Tired", common.Tired),
        };
        if (values.Refusal is { } refused)
            return refused;
        if (!(places[0]!.Hours < places[1]!.Hours && places[1]!.Hours < places[2]!.Hours))
            return new SpringPlacesOutOfOrder();
        var limits = new SpringPlaces(places[0]!.Hours, places[1]!.Hours, places[2]!.Hours);
        var end = typed.Anticlockwise ? seen!.Mirrored : seen!;
        var state = SpringAtRest.StateOf(end, limits);
        var gauge = SpringAtRest.GaugeOf(end, limits);
        if (state == SpringState.Unlikely)
            gauge = new Gauge(gauge.Value, gauge.Unit, null, null);
        var text = $"Unhooked, the end rests at {seen} with the mark at twelve{(typed.Anticlockwise ? ", opening anticlockwise" : "")}: {Words(state)}.";
        return new SpringWorked(seen!, end, state, limits, typed.Anticlockwise, new("Mainspring", "Spring at rest", gauge, text));
    }

    public static string Words(SpringState state) => state switch
    {
        SpringState.AsNew => "as new",
        SpringState.Serviceable => "serviceable",
        SpringState.Tired => "tired, the blades will close lazily",
        _ => "not where such a spring rests: look whether it is another spring, still hooked, or read from the other side",
    };

    private static ClockPosition? Place(SheetValues values, string text, string name, string words, double? usual)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            if (usual is { } hours)
                return ClockPosition.FromHours(hours);
            values.Refuse(new SheetValueMissing(name, words));
            return null;
        }

        var place = ClockPosition.Read(text);
        if (place is null)
            values.Refuse(new ClockPlaceNotRead(name, text.Trim()));
        return place;
    }
}
