using RepairShop.Domain.Estimates;

namespace RepairShop.Domain.Repairs;

/// <summary>One fact in the course of a repair.</summary>
/// <param name="At">When; null for what is still to come.</param>
/// <param name="Text">In a few words: booked in, estimate sent, approved by e-mail.</param>
/// <param name="Kind"></param>
public sealed record TrailStep(DateTimeOffset? At, string Text, TrailKind Kind);

public enum TrailKind
{
    Done,
    Now,
    ToCome,
}

/// <summary>What has happened to a repair, as far as its course depends on it.</summary>
public sealed record TrailFacts
{
    public required Stage Stage { get; init; }
    public required DateTimeOffset BookedAt { get; init; }
    public decimal? PreApprovedLimit { get; init; }
    public IReadOnlyList<OfferFact> Offers { get; init; } = [];
    public DateTimeOffset? BenchAt { get; init; }
    public string Shelf { get; init; } = "";
    public DateTimeOffset? TestedAt { get; init; }
    public DateTimeOffset? ReadyAt { get; init; }
    public DateTimeOffset? ReturnedAt { get; init; }
    public ReturnWay? ReturnHow { get; init; }
    public string ReturnedTo { get; init; } = "";
}

/// <summary>One sent revision of the estimate and its answer.</summary>
public sealed record OfferFact(
    int Revision, DateTimeOffset SentAt, DateOnly ValidUntil, EstimateAnswer? Answer, DateTimeOffset? AnsweredAt, AnswerWay? How);

/// <summary>How a repair came to stand where it stands: the facts in their order, the latest marked, then what is to come.</summary>
public static class Trail
{
    public static IReadOnlyList<TrailStep> Of(TrailFacts facts, DateOnly today)
    {
        var done = Happened(facts, today).OrderBy(step => step.At).ToList();
        var now = done.FindLastIndex(step => step.Stage == facts.Stage);
        var steps = done.Select((step, index) => new TrailStep(step.At, step.Text, index == now ? TrailKind.Now : TrailKind.Done)).ToList();
        steps.AddRange(ToCome(facts.Stage).Select(text => new TrailStep(null, text, TrailKind.ToCome)));
        return steps;
    }

    public static string Words(AnswerWay how) => how switch
    {
        AnswerWay.InPerson => "in person",
        AnswerWay.Phone => "by phone",
        AnswerWay.Email => "by e-mail",
        AnswerWay.Letter => "by letter",
        AnswerWay.Link => "through the link",
        _ => throw new ArgumentOutOfRangeException(nameof(how), how, null),
    };

    public static string Words(Stage stage) => stage switch
    {
        Stage.BookedIn => "booked in",
        Stage.EstimateSent => "estimate sent",
        Stage.Approved => "approved",
        Stage.Declined => "declined",
        Stage.OnTheBench => "on the bench",
        Stage.Tested => "tested",
        Stage.Ready => "ready",
        Stage.Returned => "returned",
        _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, null),
    };

    private static IEnumerable<(DateTimeOffset At, string Text, Stage Stage)> Happened(TrailFacts facts, DateOnly today)
    {
        yield return (facts.BookedAt, facts.PreApprovedLimit is null ? "booked in" : "booked in, limit agreed",
            facts.PreApprovedLimit is null ? Stage.BookedIn : Stage.Approved);
        foreach (var offer in facts.Offers)
        {
            var revision = offer.Revision == 1 ? "" : $", revision {offer.Revision}";
            var lapsed = offer.Answer is null && offer == facts.Offers[^1] && today > offer.ValidUntil ? ", lapsed" : "";
            yield return (offer.SentAt, $"estimate sent{revision}{lapsed}", Stage.EstimateSent);
            if (offer is { Answer: { } answer, AnsweredAt: { } at })
                yield return (at, (answer == EstimateAnswer.Approved ? "approved" : "declined") + (offer.How is { } how ? ", " + Words(how) : ""),
                    answer == EstimateAnswer.Approved ? Stage.Approved : Stage.Declined);
        }

        if (facts.BenchAt is { } bench)
            yield return (bench, facts.Shelf.Length > 0 && facts.ReturnedAt is null ? $"on the bench, shelf {facts.Shelf}" : "on the bench", Stage.OnTheBench);
        if (facts.TestedAt is { } tested)
            yield return (tested, "tested after service", Stage.Tested);
        if (facts.ReadyAt is { } ready)
            yield return (ready, "ready", Stage.Ready);
        if (facts.ReturnedAt is { } returned)
            yield return (returned, facts.ReturnHow == ReturnWay.Posted ? $"posted to {facts.ReturnedTo}" : $"collected by {facts.ReturnedTo}", Stage.Returned);
    }

    private static IEnumerable<string> ToCome(Stage stage) => stage switch
    {
        Stage.BookedIn => ["estimate", "bench", "ready", "home"],
        Stage.EstimateSent => ["answer", "bench", "ready", "home"],
        Stage.Approved => ["bench", "tested", "ready", "home"],
        Stage.OnTheBench => ["tested", "ready", "home"],
        Stage.Tested or Stage.Declined => ["ready", "home"],
        Stage.Ready => ["home"],
        _ => [],
    };
}
