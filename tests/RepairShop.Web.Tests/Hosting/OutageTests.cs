using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Database;
using RepairShop.Testing;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.Hosting;

/// <summary>What is no fault of the program, a database that is away or a disk that is full, must not cost anybody a word.</summary>
public sealed class OutageTests(PostgresServer server) : IDisposable
{
    private const string Findings = "/repairs/2026-0001/findings";

    private readonly string folder = TestFolders.Create("outage");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_database_stopped_while_somebody_types_gives_the_text_back_and_takes_it_when_it_runs_again()
    {
        var options = new PrivateClusterOptions { DataDirectory = folder, Durable = false };
        var cluster = await PrivateCluster.StartAsync(options, TestContext.Current.CancellationToken);
        try
        {
            await using var app = await ShopApp.Start(new TestDatabase(cluster.ConnectionString(), () => Task.CompletedTask));
            await OneRepair.BookedIn(app);
            using var client = await app.SignedIn();
            using var other = await app.SignedIn();
            await client.Open(Findings);

            await cluster.DisposeAsync();
            await client.Press("Add finding", ("Input.Component", "Slow train"), ("Input.Text", "Pallet worn, old oil"));
            Assert.Equal((HttpStatusCode.ServiceUnavailable, "Your text is safe"), (client.Status, client.Heading));
            Assert.Contains("The database does not answer just now", client.Notice);
            Assert.Contains("Pallet worn, old oil", client.Text);
            await other.Open("/bench");
            Assert.Equal((HttpStatusCode.ServiceUnavailable, "Not ready"), (other.Status, other.Heading));
            await other.Open("/health/live");
            Assert.Equal("Healthy", other.Text);
            await other.Open("/health/ready");
            Assert.Equal(HttpStatusCode.ServiceUnavailable, other.Status);

            cluster = await PrivateCluster.StartAsync(options, TestContext.Current.CancellationToken);
            await client.Press("Send it again");
            Assert.Equal((Findings, "Finding added."), (client.Url, client.Notice));
            Assert.Equal("Pallet worn, old oil", await app.WithDb(db => db.Findings.Select(row => row.Text).SingleAsync()));
        }
        finally
        {
            await cluster.DisposeAsync();
        }
    }

    [Fact]
    public async Task A_full_disk_refuses_the_photo_by_name_and_loses_nothing_else()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn();
        await using var disk = FullDisk.At(Path.Combine(app.DataDirectory, "files"));
        await client.Open("/repairs/2026-0001/photos");
        await client.Upload("Add photos", "files", "shutter.jpg", await File.ReadAllBytesAsync(Seed.Photo("camera-worn.jpg"), TestContext.Current.CancellationToken));
        Assert.Contains("“shutter.jpg” could not be stored: the disk is full", Assert.Single(client.Errors));
        Assert.Equal(0, await app.WithDb(db => db.Photos.CountAsync()));
        Assert.Empty(Directory.Exists(disk.Folder) ? Directory.GetFiles(disk.Folder, "*.part", SearchOption.AllDirectories) : []);
    }

    [Fact]
    public async Task A_full_disk_while_a_paper_is_made_says_so_and_issues_nothing()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn();
        await using var disk = FullDisk.At(Path.Combine(app.DataDirectory, "files"));
        await client.Open("/repairs/2026-0001/papers");
        await client.Press("Bench sheet");
        Assert.Equal(HttpStatusCode.InsufficientStorage, client.Status);
        Assert.Contains("The disk is full.", client.Notice);
        Assert.Equal(0, await app.WithDb(db => db.Papers.CountAsync()));

        await disk.DisposeAsync();
        await client.Press("Send it again");
        Assert.Contains("is made", client.Notice);
        Assert.Equal("2026-0001-B1", await app.WithDb(db => db.Papers.Select(row => row.Number).SingleAsync()));
    }
}
