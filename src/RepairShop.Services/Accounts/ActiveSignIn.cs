using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;

namespace RepairShop.Services.Accounts;

/// <summary>Lets only active people in.</summary>
internal sealed class ActiveSignIn(
    UserManager<Account> people, IHttpContextAccessor context, IUserClaimsPrincipalFactory<Account> principals,
    IOptions<IdentityOptions> options, ILogger<SignInManager<Account>> log, IAuthenticationSchemeProvider schemes,
    IUserConfirmation<Account> confirmation)
    : SignInManager<Account>(people, context, principals, options, log, schemes, confirmation)
{
    public override async Task<bool> CanSignInAsync(Account user) => user.Active && await base.CanSignInAsync(user);
}
