using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;

namespace RepairShop.Services.Accounts;

/// <summary>The people of the shop: the first owner, adding, resetting, deactivating.</summary>
public sealed class AccountService(
    ShopDb db, UserManager<Account> people, RoleManager<IdentityRole<Guid>> roles, FirstStart firstStart)
{
    // Any number does, as long as every process of this shop uses the same.
    private const int OwnersLock = 5_080_001;

    public async Task<bool> HasOwner(CancellationToken ct = default)
    {
        if (firstStart.IsDone)
            return true;
        var any = await db.UserRoles.Join(db.Roles, link => link.RoleId, role => role.Id, (_, role) => role.Name)
            .AnyAsync(name => name == Roles.Owner, ct);
        if (any)
            firstStart.Done();
        return any;
    }

    public async Task EnsureRoles()
    {
        var known = await db.Roles.Select(role => role.Name).ToListAsync();
        foreach (var role in Roles.All.Where(role => !known.Contains(role)))
            await roles.CreateAsync(new IdentityRole<Guid>(role) { Id = Guid.CreateVersion7() });
    }

    /// <summary>Two people who both read the code get one owner: the second waits at the lock and is told.</summary>
    public async Task<Result<Account>> CreateFirstOwner(string code, NewPerson person, string password, CancellationToken ct = default)
    {
        if (!firstStart.IsCode(code))
            return new FirstCodeWrong();
        await using var transaction = await db.Database.BeginTransactionAsync(ct);
        await db.Database.ExecuteSqlAsync($"select pg_advisory_xact_lock({OwnersLock})", ct);
        if (await HasOwner(ct))
            return new OwnerExists();
        var made = await Create(person, password, mustChange: false);
        if (!made.IsDone)
            return made;
        await transaction.CommitAsync(ct);
        firstStart.Done();
        return made;
    }

    /// <summary>The new person and the one-time password to hand over.</summary>
    public async Task<Result<Handover>> Add(NewPerson person, CancellationToken ct = default)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(ct);
        var password = OneTimePassword.New();
        var made = await Create(person, password, mustChange: true);
        if (!made.IsDone)
            return made.Failure;
        await transaction.CommitAsync(ct);
        return new Handover(made.Value.DisplayName, made.Value.Email!, password);
    }

    public async Task<Result<Handover>> Reset(Guid id) =>
        await people.FindByIdAsync(id.ToString()) is { } account ? await Reset(account) : new PersonNotFound();

    public async Task<Result<Handover>> Reset(string email) =>
        await people.FindByEmailAsync(email) is { } account ? await Reset(account) : new PersonNotFound();

    /// <summary>Deactivating ends the person's open sessions too.</summary>
    public async Task<Result> SetActive(Guid id, bool active)
    {
        await using var transaction = await OneAtATime();
        if (await people.FindByIdAsync(id.ToString()) is not { } account)
            return new PersonNotFound();
        if (!active && await IsLastOwner(account))
            return new LastOwner(account.DisplayName);
        account.Active = active;
        Expect(await people.UpdateAsync(account));
        Expect(await people.UpdateSecurityStampAsync(account));
        await transaction.CommitAsync();
        return Result.Done;
    }

    public async Task<Result> SetRole(Guid id, string role)
    {
        if (!Roles.All.Contains(role))
            return new RoleUnknown(role);
        await using var transaction = await OneAtATime();
        if (await people.FindByIdAsync(id.ToString()) is not { } account)
            return new PersonNotFound();
        if (role != Roles.Owner && await IsLastOwner(account))
            return new LastOwner(account.DisplayName);
        Expect(await people.RemoveFromRolesAsync(account, await people.GetRolesAsync(account)));
        Expect(await people.AddToRoleAsync(account, role));
        Expect(await people.UpdateSecurityStampAsync(account));
        await transaction.CommitAsync();
        return Result.Done;
    }

    /// <summary>Also ends every other session, as a changed password should.</summary>
    public async Task<Result> ChangePassword(Account account, string current, string password)
    {
        if (!await people.CheckPasswordAsync(account, current))
            return new CurrentPasswordWrong();
        if (current == password)
            return new PasswordRefused("The new password is the same as the present one: choose another.");
        var changed = await people.ChangePasswordAsync(account, current, password);
        if (!changed.Succeeded)
            return new PasswordRefused(Sentence(changed));
        account.MustChangePassword = false;
        Expect(await people.UpdateAsync(account));
        return Result.Done;
    }

    public async Task Rename(Account account, string name)
    {
        account.DisplayName = name.Trim();
        Expect(await people.UpdateAsync(account));
    }

    public Task<List<PersonRow>> List(CancellationToken ct = default) =>
        db.Users
            .OrderByDescending(account => account.Active).ThenBy(account => account.DisplayName)
            .Select(account => new PersonRow(
                account.Id,
                account.DisplayName,
                account.Email!,
                db.UserRoles.Where(link => link.UserId == account.Id)
                    .Join(db.Roles, link => link.RoleId, role => role.Id, (_, role) => role.Name!).FirstOrDefault() ?? "",
                account.Active,
                account.MustChangePassword,
                account.LockoutEnd))
            .ToListAsync(ct);

    private async Task<Result<Account>> Create(NewPerson person, string password, bool mustChange)
    {
        if (!Roles.All.Contains(person.Role))
            return new RoleUnknown(person.Role);
        if (await people.FindByEmailAsync(person.Email) is not null)
            return new EmailTaken(person.Email);
        await EnsureRoles();
        var account = new Account
        {
            Id = Guid.CreateVersion7(),
            UserName = person.Email,
            Email = person.Email,
            EmailConfirmed = true,
            DisplayName = person.Name,
            MustChangePassword = mustChange,
        };
        var made = await people.CreateAsync(account, password);
        if (!made.Succeeded)
            return new PasswordRefused(Sentence(made));
        Expect(await people.AddToRoleAsync(account, person.Role));
        return account;
    }

    private async Task<Result<Handover>> Reset(Account account)
    {
        var password = OneTimePassword.New();
        await using var transaction = await db.Database.BeginTransactionAsync();
        account.MustChangePassword = true;
        Expect(await people.RemovePasswordAsync(account));
        Expect(await people.AddPasswordAsync(account, password)); // changes the security stamp: every session ends
        Expect(await people.SetLockoutEndDateAsync(account, null));
        Expect(await people.ResetAccessFailedCountAsync(account));
        await transaction.CommitAsync();
        return new Handover(account.DisplayName, account.Email!, password);
    }

    /// <summary>Two owners who take the other's place away at the same moment would both see one left.</summary>
    private async Task<IDbContextTransaction> OneAtATime()
    {
        var transaction = await db.Database.BeginTransactionAsync();
        await db.Database.ExecuteSqlAsync($"select pg_advisory_xact_lock({OwnersLock})");
        return transaction;
    }

    private async Task<bool> IsLastOwner(Account account) =>
        account.Active
        && await people.IsInRoleAsync(account, Roles.Owner)
        && !(await people.GetUsersInRoleAsync(Roles.Owner)).Any(other => other.Active && other.Id != account.Id);

    private static string Sentence(IdentityResult result) => string.Join(' ', result.Errors.Select(error => error.Description));

    private static void Expect(IdentityResult result)
    {
        if (!result.Succeeded)
            throw new InvalidOperationException($"An account could not be saved: {string.Join(", ", result.Errors.Select(error => error.Code))}.");
    }
}

public sealed record NewPerson(string Name, string Email, string Role);

/// <summary>What the owner tells a person once: the password is not kept anywhere readable.</summary>
public sealed record Handover(string Name, string Email, string Password);

public sealed record PersonRow(
    Guid Id, string Name, string Email, string Role, bool Active, bool MustChangePassword, DateTimeOffset? LockedUntil);
