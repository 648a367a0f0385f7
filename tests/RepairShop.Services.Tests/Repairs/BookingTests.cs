using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Services.Repairs;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Repairs;

public sealed class BookingTests(PostgresServer server)
{
    private static CancellationToken Cancel => CounterBook.Cancel;

    private static Task<Result<Booked>> Try(CounterBook book, BookingInput input) =>
        book.Do<BookingService, Result<Booked>>(booking => booking.BookAsync(input, Cancel));

    [Fact]
    public async Task Sixty_four_cameras_booked_in_at_once_get_numbers_without_a_gap()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var booked = await Task.WhenAll(Enumerable.Range(0, 64).Select(_ => book.Book()));
        Assert.Equal(Enumerable.Range(1, 64).Select(number => $"2026-{number:0000}"), booked.Select(one => one.Number).Order());
    }

    [Fact]
    public async Task A_form_sent_eight_times_at_once_books_once_and_wastes_no_number()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var input = CounterBook.Booking();
        var booked = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => book.Book(input)));
        Assert.All(booked, one => Assert.Equal("2026-0001", one.Number));
        Assert.Single(booked, one => !one.WasThere);
        Assert.Equal("2026-0002", (await book.Book()).Number);
        Assert.Equal(2, await book.Db(db => db.Customers.CountAsync(Cancel)));
    }

    [Fact]
    public async Task A_refused_booking_leaves_neither_customer_nor_camera_nor_a_used_number()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var refused = await Try(book, CounterBook.Booking(facts: new RepairInput { Complaint = " \u0007 " }));
        Assert.IsType<ComplaintMissing>(refused.Failure);
        Assert.Equal((0, 0), await book.Db(async db => (await db.Customers.CountAsync(Cancel), await db.Cameras.CountAsync(Cancel))));
        Assert.Equal("2026-0001", (await book.Book()).Number);
    }

    [Fact]
    public async Task The_first_number_of_a_new_year_is_one_again_by_the_shops_own_calendar()
    {
        await using var book = await CounterBook.OpenAsync(server);
        book.Clock.SetUtcNow(new DateTimeOffset(2026, 12, 31, 23, 30, 0, TimeSpan.Zero));
        Assert.Equal("2026-0001", (await book.Book()).Number);
        book.Clock.Advance(TimeSpan.FromHours(1));
        Assert.Equal("2027-0001", (await book.Book()).Number);
    }

    [Theory]
    [InlineData("ada@example.com", "", "Somebody Quite Different", "same e-mail")]
    [InlineData("ADA@EXAMPLE.COM", "", "Somebody Quite Different", "same e-mail")]
    [InlineData("", "(020) 7946-0123", "Somebody Quite Different", "same phone")]
    [InlineData("", "", "Lukasz Haloway", "similar name")]
    public async Task A_likely_duplicate_is_offered_and_never_merged(string email, string phone, string name, string why)
    {
        await using var book = await CounterBook.OpenAsync(server);
        var first = CounterBook.Booking("Łukasz Halloway");
        await book.Book(first with { NewCustomer = first.NewCustomer with { Email = "ada@example.com", Phone = "020 7946 0123" } });
        var second = CounterBook.Booking(name);
        second = second with { NewCustomer = second.NewCustomer with { Email = email, Phone = phone } };
        var known = Assert.Single(Assert.IsType<CustomerMayBeKnown>((await Try(book, second)).Failure).Known);
        Assert.Equal(("Łukasz Halloway", why), (known.Name, known.Why));
        Assert.True((await Try(book, second with { CustomerIsSomebodyElse = true })).IsDone);
        Assert.Equal(2, await book.Db(db => db.Customers.CountAsync(Cancel)));
    }

    [Fact]
    public async Task A_customer_unlike_all_others_is_taken_in_without_a_question()
    {
        await using var book = await CounterBook.OpenAsync(server);
        await book.Book(CounterBook.Booking("Łukasz Halloway"));
        Assert.True((await Try(book, CounterBook.Booking("Ines Marchetti"))).IsDone);
    }

    [Fact]
    public async Task A_serial_that_is_in_the_book_is_offered_and_a_new_owner_must_be_said()
    {
        await using var book = await CounterBook.OpenAsync(server);
        await book.Book(CounterBook.Booking("Ines Marchetti", "218446"));
        var second = CounterBook.Booking("Tom Aldous", "218446");
        var known = Assert.IsType<CameraMayBeKnown>((await Try(book, second)).Failure).Known;
        Assert.Equal("Ines Marchetti", known.Owner);
        var picked = second with { CameraId = known.Id };
        Assert.IsType<CameraBelongsToAnother>((await Try(book, picked)).Failure);
        Assert.True((await Try(book, picked with { CameraHasNewOwner = true })).IsDone);
        var camera = (await book.Do<CameraService, Result<CameraView>>(cameras => cameras.GetAsync(known.Id, Cancel))).Value!;
        Assert.Equal(("Tom Aldous", 2, "Ines Marchetti"), (camera.Owner, camera.History.Count, camera.History[^1].Customer));
    }

    [Theory]
    [InlineData(179, true)]
    [InlineData(240, false)]
    public async Task A_returning_camera_is_offered_the_warranty_of_its_last_repair_while_it_runs(int days, bool covered)
    {
        await using var book = await CounterBook.OpenAsync(server);
        var first = await book.Book();
        await book.Db(db => db.Repairs.ExecuteUpdateAsync(set => set.SetProperty(row => row.ReturnedAt, book.Clock.GetUtcNow()), Cancel));
        var camera = await book.Db(db => db.Cameras.SingleAsync(Cancel));
        book.Clock.Advance(TimeSpan.FromDays(days));
        var offer = await book.Do<CameraService, WarrantyOffer?>(cameras => cameras.WarrantyAsync(camera.Id, Cancel));
        Assert.Equal(covered ? first.Number : null, offer?.Number);
        var again = CounterBook.Booking() with { CustomerId = camera.OwnerId, CameraId = camera.Id, WarrantyOfId = first.RepairId };
        Assert.Equal(covered ? null : typeof(WarrantyOver), (await Try(book, again)).Failure?.GetType());
    }

    [Fact]
    public async Task The_warranty_of_another_camera_is_refused()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var other = await book.Book();
        await book.Db(db => db.Repairs.ExecuteUpdateAsync(set => set.SetProperty(row => row.ReturnedAt, book.Clock.GetUtcNow()), Cancel));
        Assert.IsType<WarrantyOfAnotherCamera>((await Try(book, CounterBook.Booking() with { WarrantyOfId = other.RepairId })).Failure);
    }

    [Theory]
    [InlineData("יוסף בן־דוד", "東京都千代田区丸の内1丁目 🏠")]
    [InlineData("Robert'); drop table customers;--", "<script>alert(1)</script>")]
    [InlineData("Zoë 👩‍🔧 O’Hara", "12, rue de l’Église")]
    public async Task Names_and_addresses_of_every_kind_come_back_to_the_letter(string name, string street)
    {
        await using var book = await CounterBook.OpenAsync(server);
        var added = await book.Do<CustomerService, Result<Guid>>(customers =>
            customers.AddAsync(new CustomerInput { Name = name + "\u0000\u0007\u202e", Street = street }, true, Cancel));
        var view = (await book.Do<CustomerService, Result<CustomerView>>(customers => customers.GetAsync(added.Value, Cancel))).Value!;
        Assert.Equal((name, street), (view.Details.Name, view.Details.Street));
    }

    [Fact]
    public async Task The_next_booking_begins_with_what_this_person_said_last()
    {
        await using var book = await CounterBook.OpenAsync(server);
        await book.Book(CounterBook.Booking(facts: new RepairInput
        {
            Complaint = "x",
            ArrivedHow = Arrival.Courier,
            EstimateFirst = false,
            PreApprovedLimit = 80,
            Shelf = "B2",
        }));
        var next = await book.Do<BookingService, Remembered>(booking => booking.RememberedAsync(Cancel));
        Assert.Equal((Arrival.Courier, false), (next.ArrivedHow, next.EstimateFirst));
        Assert.Equal(["B2"], next.Shelves);
        Assert.Equal(["Orrevale"], next.Makers);
    }
}
