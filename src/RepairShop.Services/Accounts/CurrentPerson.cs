namespace RepairShop.Services.Accounts;

/// <summary>Who is acting in this request or job; filled once by the web program, read by services and the audit trail.</summary>
public sealed class CurrentPerson
{
    public Guid? Id { get; private set; }

    public string Name { get; private set; } = "";

    public bool IsOwner { get; private set; }

    /// <summary>The acting person's id.</summary>
    /// <exception cref="InvalidOperationException">Nobody is signed in.</exception>
    public Guid RequiredId => Id ?? throw new InvalidOperationException("This needs somebody signed in.");

    public void Is(Guid id, string name, bool isOwner) => (Id, Name, IsOwner) = (id, name, isOwner);
}
