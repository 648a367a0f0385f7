using System.Diagnostics.CodeAnalysis;

namespace RepairShop.Domain.Results;

/// <summary>Done, or the named reason why not.</summary>
public readonly record struct Result
{
    private Result(Failure? failure) => Failure = failure;

    /// <summary>The reason why not; null when done.</summary>
    public Failure? Failure { get; }

    [MemberNotNullWhen(false, nameof(Failure))]
    public bool IsDone => Failure is null;

    public static Result Done => default;

    public static implicit operator Result(Failure failure) => new(failure);
}

/// <summary>A value, or the named reason why there is none.</summary>
public readonly record struct Result<T>
{
    private Result(T? value, Failure? failure) => (Value, Failure) = (value, failure);

    public T? Value { get; }

    /// <summary>The reason why not; null when there is a value.</summary>
    public Failure? Failure { get; }

    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Failure))]
    public bool IsDone => Failure is null;

    public static implicit operator Result<T>(T value) => new(value, null);

    public static implicit operator Result<T>(Failure failure) => new(default, failure);
}
