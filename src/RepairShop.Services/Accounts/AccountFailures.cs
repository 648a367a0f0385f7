using RepairShop.Domain.Results;

namespace RepairShop.Services.Accounts;

public sealed record PersonNotFound() : NotFound("There is no such person.");

public sealed record EmailTaken(string Email)
    : Invalid("Email", $"{Email} already has an account: use another e-mail address, or reset that account's password.");

public sealed record RoleUnknown(string Role) : Invalid("Role", $"“{Role}” is not a role: choose owner, bench or counter.");

public sealed record PasswordRefused(string Reason) : Invalid("Password", Reason);

public sealed record CurrentPasswordWrong() : Invalid("CurrentPassword", "The present password is not right: type it again.");

public sealed record LastOwner(string Name)
    : Conflict($"{Name} is the only active owner: make somebody else an owner first, or nobody could change the settings.");

public sealed record FirstCodeWrong()
    : Invalid("Code", "This is not the code: look at the console window in which the program was started, and type what it shows there.");

public sealed record OwnerExists() : Conflict("This shop already has an owner: sign in, or ask the owner for an account.");

public sealed record SignInRefused()
    : Conflict("E-mail or password is not right: check both, and whether caps lock is on.");

public sealed record AccountLocked(int Minutes)
    : Conflict($"Too many wrong passwords: this account is locked for {Minutes} minutes. Wait, or ask the owner for a new password.");
