using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Repairs;

/// <summary>Books a camera in: customer, camera and repair in one transaction, under the next number.</summary>
public sealed class BookingService(
    ShopDb db, CurrentPerson person, ShopFace face, TimeProvider clock, CustomerService customers, CameraService cameras)
{
    public async Task<Result<Booked>> BookAsync(BookingInput input, CancellationToken cancel)
    {
        if (await BeforeAsync(input.FormKey, cancel) is { } before)
            return before;
        var booked = await BookNewAsync(input, cancel);
        if (booked.IsDone)
            return booked;
        // The same form, sent twice at once, may have been booked meanwhile: then what stands in the way is its own customer or camera.
        return await BeforeAsync(input.FormKey, cancel) is { } meanwhile ? meanwhile : booked;
    }

    /// <summary>What the form begins with.</summary>
    public async Task<Remembered> RememberedAsync(CancellationToken cancel)
    {
        var last = await (
            from repair in db.Repairs
            join camera in db.Cameras on repair.CameraId equals camera.Id
            where repair.BookedBy == person.RequiredId
            orderby repair.BookedAt descending
            select new { repair.ArrivedHow, repair.PreApprovedLimit, repair.ConsentHow, camera.Format }).FirstOrDefaultAsync(cancel);
        var recent = await (
            from repair in db.Repairs
            join camera in db.Cameras on repair.CameraId equals camera.Id
            orderby repair.BookedAt descending
            select new { camera.Maker, camera.Model, camera.Shutter, repair.Shelf }).Take(400).ToListAsync(cancel);
        return new Remembered(
            last?.ArrivedHow ?? Arrival.BroughtIn, last?.PreApprovedLimit is null, last?.ConsentHow, last?.Format ?? "",
            Words(recent.Select(row => row.Maker)), Words(recent.Select(row => row.Model)),
            Words(recent.Select(row => row.Shelf)), Words(recent.Select(row => row.Shutter)));
    }

    private async Task<Result<Booked>> BookNewAsync(BookingInput input, CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        var repair = new Repair { Id = input.FormKey, BookedAt = now, BookedBy = person.RequiredId };
        if (await CustomerAsync(input, repair, cancel) is { IsDone: false } customer)
            return customer.Failure;
        if (await CameraAsync(input, repair, cancel) is { IsDone: false } camera)
            return camera.Failure;
        if (RepairFacts.Write(input.Facts, repair, face, now) is { IsDone: false } facts)
            return facts.Failure;
        if (await WarrantyAsync(input, repair, cancel) is { IsDone: false } warranty)
            return warranty.Failure;
        return await NumberAndSaveAsync(repair, cancel);
    }

    private async Task<Booked?> BeforeAsync(Guid formKey, CancellationToken cancel) =>
        await db.Repairs.Where(row => row.Id == formKey).Select(row => new Booked(row.Id, row.Number, true)).FirstOrDefaultAsync(cancel);

    private async Task<Result> CustomerAsync(BookingInput input, Repair repair, CancellationToken cancel)
    {
        if (input.CustomerId is { } id)
        {
            repair.CustomerId = id;
            return await db.Customers.AnyAsync(row => row.Id == id, cancel) ? Result.Done : new CustomerNotFound();
        }

        var customer = customers.New(input.NewCustomer);
        var checkedNew = await customers.CheckNewAsync(customer, input.CustomerIsSomebodyElse, cancel);
        if (checkedNew.IsDone)
            db.Customers.Add(customer);
        repair.CustomerId = customer.Id;
        return checkedNew;
    }

    private async Task<Result> CameraAsync(BookingInput input, Repair repair, CancellationToken cancel)
    {
        if (input.CameraId is not { } id)
        {
            var camera = new Camera { OwnerId = repair.CustomerId, CreatedAt = repair.BookedAt };
            var checkedNew = await cameras.CheckNewAsync(camera, input.NewCamera, input.CameraIsAnotherOne, cancel);
            if (checkedNew.IsDone)
                db.Cameras.Add(camera);
            repair.CameraId = camera.Id;
            return checkedNew;
        }

        if (await db.Cameras.SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } known)
            return new CameraNotFound();
        repair.CameraId = id;
        if (known.OwnerId == repair.CustomerId)
            return Result.Done;
        if (!input.CameraHasNewOwner)
        {
            var owner = await db.Customers.SingleAsync(row => row.Id == known.OwnerId, cancel);
            return new CameraBelongsToAnother(
                CameraRules.NameOf(known.Maker, known.Model, known.Variant), CustomerService.NameOf(owner.Name, owner.Company));
        }

        known.OwnerId = repair.CustomerId;
        return Result.Done;
    }

    private async Task<Result> WarrantyAsync(BookingInput input, Repair repair, CancellationToken cancel)
    {
        if (input.WarrantyOfId is not { } id)
            return Result.Done;
        var earlier = await db.Repairs.Where(row => row.Id == id && row.ReturnedAt != null)
            .Select(row => new { row.Number, row.CameraId, row.ReturnedAt }).SingleOrDefaultAsync(cancel);
        if (earlier is null || earlier.CameraId != repair.CameraId)
            return new WarrantyOfAnotherCamera();
        var months = await db.Shop.Select(shop => shop.WarrantyMonths).SingleAsync(cancel);
        var returned = RepairFacts.DayOf(face, earlier.ReturnedAt!.Value);
        if (!Warranty.Covers(returned, months, face.Today))
            return new WarrantyOver(earlier.Number, Warranty.Until(returned, months));
        repair.WarrantyOfId = id;
        return Result.Done;
    }

    private async Task<Result<Booked>> NumberAndSaveAsync(Repair repair, CancellationToken cancel)
    {
        var format = await db.Shop.Select(shop => shop.RepairNumberFormat).SingleAsync(cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        repair.Number = await NumberGiver.NextFreeAsync(db, "repair", format, face.Today, number => db.Repairs.AnyAsync(row => row.Number == number, cancel), cancel);
        // A second sending of the same form has waited here for the first to end; leaving without a commit gives the number back.
        if (await BeforeAsync(repair.Id, cancel) is { } before)
            return before;
        db.Repairs.Add(repair);
        if (await db.SaveAsync(cancel) is { IsDone: false } refused)
            return refused.Failure;
        await transaction.CommitAsync(cancel);
        return new Booked(repair.Id, repair.Number, false);
    }

    private static List<string> Words(IEnumerable<string> texts) =>
        [.. texts.Where(text => text.Length > 0).GroupBy(text => text).OrderByDescending(group => group.Count()).Take(40).Select(group => group.Key)];
}
