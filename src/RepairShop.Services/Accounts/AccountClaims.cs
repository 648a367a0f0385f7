using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace RepairShop.Services.Accounts;

/// <summary>What the sign-in cookie says beside the id and the role.</summary>
public static class AccountClaims
{
    public const string DisplayName = "display-name";
    public const string MustChangePassword = "must-change-password";
}

internal sealed class AccountPrincipal(
    UserManager<Account> people, RoleManager<IdentityRole<Guid>> roles, IOptions<IdentityOptions> options)
    : UserClaimsPrincipalFactory<Account, IdentityRole<Guid>>(people, roles, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Account user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(new Claim(AccountClaims.DisplayName, user.DisplayName));
        if (user.MustChangePassword)
            identity.AddClaim(new Claim(AccountClaims.MustChangePassword, "yes"));
        return identity;
    }
}
