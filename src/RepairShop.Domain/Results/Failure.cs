namespace RepairShop.Domain.Results;

/// <summary>A rule's "no": one small record per refusal, with the sentence a person reads beside it.</summary>
/// <param name="Message">One sentence that says what is wrong and what to do.</param>
public abstract record Failure(string Message);

/// <summary>The thing asked for is not there.</summary>
public abstract record NotFound(string Message) : Failure(Message);

/// <summary>The thing is there, but its state does not allow this: shown on top of the form.</summary>
public abstract record Conflict(string Message) : Failure(Message);

/// <summary>A value breaks a rule: shown beside its field.</summary>
/// <param name="Field">The input's name, as the page's input model spells it.</param>
/// <param name="Message">One sentence naming the field and the value.</param>
public abstract record Invalid(string Field, string Message) : Failure(Message);

/// <summary>Somebody else saved the same thing in between. Both values are shown; nothing typed is lost.</summary>
/// <param name="Differences">What is stored now against what was typed, field by field.</param>
public sealed record ChangedMeanwhile(IReadOnlyList<FieldDifference> Differences)
    : Conflict("Somebody else changed this while you were typing. Compare the values below, then save again.");

/// <summary>One field of a <see cref="ChangedMeanwhile"/>.</summary>
public sealed record FieldDifference(string Field, string Stored, string Typed);
