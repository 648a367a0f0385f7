using System.Diagnostics;

namespace RepairShop.Services.Tests.StripDown;

/// <summary>Counts the statements sent to PostgreSQL from here on by this test, from the driver's own trace.</summary>
internal sealed class StatementCounter : IDisposable
{
    private readonly Activity root = new Activity("counted").Start();
    private readonly ActivityListener listener;
    private int count;

    public StatementCounter()
    {
        listener = new ActivityListener
        {
            ShouldListenTo = source => source.Name == "Npgsql",
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.AllData,
            // Other tests run beside this one: only what descends from here is counted.
            ActivityStopped = activity =>
            {
                if (activity.RootId == root.RootId)
                    Interlocked.Increment(ref count);
            },
        };
        ActivitySource.AddActivityListener(listener);
    }

    public int Count => count;

    public void Dispose()
    {
        listener.Dispose();
        root.Dispose();
    }
}
