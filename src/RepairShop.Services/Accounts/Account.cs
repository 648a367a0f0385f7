using Microsoft.AspNetCore.Identity;

namespace RepairShop.Services.Accounts;

/// <summary>A person who signs in.</summary>
public sealed class Account : IdentityUser<Guid>
{
    public string DisplayName { get; set; } = "";

    /// <summary>Deactivated people keep their name on what they did but can't sign in.</summary>
    public bool Active { get; set; } = true;

    /// <summary>The password was given by somebody else and must be changed first.</summary>
    public bool MustChangePassword { get; set; }
}
