using RepairShop.Services;
using RepairShop.Services.Database;
using RepairShop.Services.Demo;
using RepairShop.Services.Post;
using RepairShop.Web.Hosting;

if (args is [MeasureOptions.Command, ..])
    return MeasureCommand.Run(args[1..]);

var read = StartOptions.Read(args);
if (!read.IsDone)
{
    await Console.Error.WriteLineAsync(read.Failure.Message);
    return 2;
}

var start = read.Value;
try
{
    DataFolder.CreateWithRooms(start.DataDirectory);
    var builder = WebApplication.CreateBuilder(start.Arguments);
    builder.AddShopHost(start);
    await using var database = start.IsCommand
        ? await ShopDatabase.JoinAsync(builder.Configuration, start.DataDirectory)
        : await ShopDatabase.OpenAsync(builder.Configuration, start.DataDirectory);
    if ((start.BackupTo ?? start.RestoreFrom) is not null)
        return await BackupCommands.RunAsync(database, start);
    builder.Services.AddShopServices(database.ConnectionString, start.DataDirectory);
    builder.Services.AddPost(builder.Configuration, start.DataDirectory);
    builder.Services.AddShopPages();

    await using var app = builder.Build();
    // The pages are laid out while the book is made ready: neither needs the other, and nothing listens before both are done.
    var prepared = Task.Run(() => ShopPreparation.PrepareAsync(app.Services));
    if (!start.IsCommand)
        app.UseShopPipeline();
    await prepared;
    if (start.ResetPasswordFor is { } email)
        return await ResetPassword.RunAsync(app.Services, email);
    if (start.Demo)
        await DemoWorkshop.FillAsync(app.Services, database.ConnectionString, start.DataDirectory, Console.WriteLine, CancellationToken.None);
    await app.StartAsync();
    await app.AnnounceAsync(start);
    foreach (var line in start.Demo ? DemoWorkshop.SignIns() : [])
        Console.WriteLine(line);
    await app.WaitForShutdownAsync();
    return 0;
}
catch (Exception exception) when (StartFailure.Sentence(exception, start) is { } sentence)
{
    await Console.Error.WriteLineAsync(sentence);
    return 1;
}

/// <summary>Named for the tests, which start the whole program.</summary>
public partial class Program;
