using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Repairs;
using RepairShop.Testing;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.Repairs;

public class PhotoStories(PostgresServer server)
{
    [Theory]
    [InlineData("Caption")]
    [InlineData("TakeOff")]
    [InlineData("PutBack")]
    public async Task A_photo_is_not_changed_under_the_number_of_another_repair(string handler)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        await OneRepair.BookedIn(app, "2026-0002");
        var photo = await app.WithDb(async db =>
        {
            var added = new Photo { RepairId = await db.Repairs.Where(row => row.Number == "2026-0001").Select(row => row.Id).SingleAsync(), FileHash = new string('a', 64), ThumbnailHash = new string('b', 64), AddedAt = DateTimeOffset.UtcNow };
            db.Photos.Add(added);
            await db.SaveChangesAsync();
            return added.Id;
        });
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/photos");
        var token = client.Value("__RequestVerificationToken")!;
        KeyValuePair<string, string>[] values = [new("__RequestVerificationToken", token), new("id", photo.ToString()), new("caption", "Mine")];
        await client.Post($"/repairs/2026-0002/photos?handler={handler}", values);
        Assert.Equal(HttpStatusCode.NotFound, client.Status);
        await client.Post($"/repairs/2026-0001/photos?handler={handler}", values);
        Assert.Equal(HttpStatusCode.OK, client.Status);
    }
}
