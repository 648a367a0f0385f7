using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Services.Database;

namespace RepairShop.Services.Accounts;

/// <summary>Identity on the shop's database, and the keys that protect cookies and forms beside it, for all web processes alike.</summary>
public static class AccountsSetup
{
    public const int LockoutAfter = 5;

    public static readonly TimeSpan LockoutTime = TimeSpan.FromMinutes(10);

    public static IServiceCollection AddAccounts(this IServiceCollection services)
    {
        services.AddHttpContextAccessor();
        services.AddSingleton<FirstStart>();
        services.AddIdentity<Account, IdentityRole<Guid>>(options =>
            {
                options.User.RequireUniqueEmail = true;
                options.User.AllowedUserNameCharacters = ""; // e-mail addresses, any letters
                // Length is what helps; rules about digits and signs only make people write passwords down (NIST SP 800-63B, 3.1.1.2).
                options.Password.RequiredLength = 10;
                options.Password.RequireDigit = false;
                options.Password.RequireLowercase = false;
                options.Password.RequireUppercase = false;
                options.Password.RequireNonAlphanumeric = false;
                options.Password.RequiredUniqueChars = 4;
                options.Lockout.MaxFailedAccessAttempts = LockoutAfter;
                options.Lockout.DefaultLockoutTimeSpan = LockoutTime;
                options.Lockout.AllowedForNewUsers = true;
            })
            .AddEntityFrameworkStores<ShopDb>()
            .AddClaimsPrincipalFactory<AccountPrincipal>()
            .AddSignInManager<ActiveSignIn>()
            .AddErrorDescriber<AccountSentences>()
            .AddDefaultTokenProviders();
        services.Configure<SecurityStampValidatorOptions>(options => options.ValidationInterval = TimeSpan.FromMinutes(1));
        services.AddDataProtection().SetApplicationName("workshop-book").PersistKeysToDbContext<ShopDb>();
        return services;
    }
}

internal sealed class AccountSentences : IdentityErrorDescriber
{
    public override IdentityError PasswordTooShort(int length) =>
        new() { Code = nameof(PasswordTooShort), Description = $"The password is too short: use {length} characters or more, such as a few words." };

    public override IdentityError PasswordRequiresUniqueChars(int uniqueChars) =>
        new() { Code = nameof(PasswordRequiresUniqueChars), Description = $"The password repeats itself: use at least {uniqueChars} different characters." };
}
