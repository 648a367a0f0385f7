using Microsoft.Extensions.DependencyInjection;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;

namespace RepairShop.Services.Demo;

/// <summary>Lets the loader act in the book as a person would, at a time of its choosing.</summary>
internal sealed class DemoBook(IServiceProvider services, DemoClock clock, IReadOnlyDictionary<string, DemoPerson> people, CancellationToken cancel)
{
    public CancellationToken Cancel => cancel;

    public DateTimeOffset Now => clock.Now;

    public void SetClock(DateTimeOffset now) => clock.Now = now;

    /// <summary>Does one thing with a service, in a scope of its own.</summary>
    /// <exception cref="InvalidOperationException">The book refused: the seed and the rules disagree, which is a bug.</exception>
    public async Task<T> DoAsync<TService, T>(string person, Func<TService, Task<Result<T>>> deed)
        where TService : notnull
    {
        await using var scope = services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(people[person].Id, people[person].Name, person == "owner");
        var result = await deed(scope.ServiceProvider.GetRequiredService<TService>());
        return result.IsDone ? result.Value : throw Refused<TService>(result.Failure);
    }

    /// <inheritdoc cref="DoAsync{TService, T}"/>
    public async Task DoAsync<TService>(string person, Func<TService, Task<Result>> deed)
        where TService : notnull
    {
        await using var scope = services.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<CurrentPerson>().Is(people[person].Id, people[person].Name, person == "owner");
        var result = await deed(scope.ServiceProvider.GetRequiredService<TService>());
        if (!result.IsDone)
            throw Refused<TService>(result.Failure);
    }

    private InvalidOperationException Refused<TService>(Failure failure) =>
        new($"The demo workshop could not be filled: {typeof(TService).Name} refused on {clock.Now:yyyy-MM-dd}: {failure.Message} ({failure.GetType().Name})");
}

internal sealed record DemoPerson(Guid Id, string Name);
