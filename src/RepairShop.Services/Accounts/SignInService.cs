using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using RepairShop.Domain.Results;

namespace RepairShop.Services.Accounts;

/// <summary>Signing in and out with e-mail and password.</summary>
public sealed class SignInService(SignInManager<Account> signIn, UserManager<Account> people)
{
    private static readonly Account Nobody = new();
    private static readonly string NobodysHash = new PasswordHasher<Account>().HashPassword(Nobody, OneTimePassword.New());

    /// <summary>The person as the cookie names them. An unknown address, a deactivated account and a wrong password get the same answer in about the same time.</summary>
    public async Task<Result<ClaimsPrincipal>> SignIn(string email, string password, bool remember)
    {
        if (await people.FindByEmailAsync(email) is not { } account)
        {
            people.PasswordHasher.VerifyHashedPassword(Nobody, NobodysHash, password);
            return new SignInRefused();
        }

        var checkedPassword = await signIn.CheckPasswordSignInAsync(account, password, lockoutOnFailure: true);
        if (checkedPassword.IsLockedOut)
            return new AccountLocked((int)AccountsSetup.LockoutTime.TotalMinutes);
        if (checkedPassword.IsNotAllowed) // the password was not even looked at
            people.PasswordHasher.VerifyHashedPassword(Nobody, NobodysHash, password);
        if (!checkedPassword.Succeeded)
            return new SignInRefused();
        await signIn.SignInAsync(account, remember);
        return await signIn.CreateUserPrincipalAsync(account);
    }

    public Task SignInAsNew(Account account) => signIn.SignInAsync(account, isPersistent: false);

    public Task SignOut() => signIn.SignOutAsync();

    public async Task<Account> Current(ClaimsPrincipal person) =>
        await people.GetUserAsync(person) ?? throw new InvalidOperationException("The signed-in account is gone.");

    /// <summary>Ends every session of this person but this one.</summary>
    public async Task SignOutElsewhere(Account account)
    {
        await people.UpdateSecurityStampAsync(account);
        await signIn.RefreshSignInAsync(account);
    }

    /// <summary>Renews this session's cookie after a change of name, role or password.</summary>
    public Task Renew(Account account) => signIn.RefreshSignInAsync(account);
}
