using RepairShop.Services.Accounts;

namespace RepairShop.Web.Hosting;

/// <summary><c>reset-password EMAIL</c>: for the owner who has forgotten their own; whoever may run this program may do it.</summary>
internal static class ResetPassword
{
    public static async Task<int> RunAsync(IServiceProvider services, string email)
    {
        await using var scope = services.CreateAsyncScope();
        var reset = await scope.ServiceProvider.GetRequiredService<AccountService>().Reset(email);
        if (!reset.IsDone)
        {
            await Console.Error.WriteLineAsync($"Nobody here has the e-mail address {email}: check it.");
            return 1;
        }

        Console.WriteLine($"New password for {email}, to be changed at the next sign-in: {reset.Value.Password}");
        return 0;
    }
}
