using RepairShop.Domain.StripDown;
using Xunit;

namespace RepairShop.Domain.Tests.StripDown;

public sealed class TrayTests
{
    [Fact]
    public void Cells_read_back_as_they_are_written()
    {
        for (var row = 1; row <= Tray.MostRows; row++)
            for (var column = 1; column <= Tray.MostColumns; column++)
                Assert.Equal(new TrayCell(row, column), TrayCell.Parse(new TrayCell(row, column).ToString()));
    }

    [Fact]
    public void The_next_cell_is_the_first_free_one_behind_the_last_row_by_row_and_then_from_the_start()
    {
        var tray = new Tray { Rows = 2, Columns = 3 };
        string? Next(string? last, params string[] taken) =>
            tray.NextFree(taken.Select(cell => TrayCell.Parse(cell)!.Value).ToHashSet(), last is null ? null : TrayCell.Parse(last))?.ToString();
        Assert.Equal("A1", Next(null));
        Assert.Equal("A2", Next("A1", "A1"));
        Assert.Equal("B1", Next("A3", "A3"));
        Assert.Equal("B2", Next("A3", "A3", "B1"));
        Assert.Equal("A2", Next("B3", "A1", "B3"));
        Assert.Null(Next("A1", "A1", "A2", "A3", "B1", "B2", "B3"));
    }

    [Fact]
    public void Two_look_alikes_in_one_cell_warn_and_other_things_beside_them_do_not()
    {
        StripStep In(string what, string cell, HeldBy held, Remember remember = Remember.None) =>
            Bench.Step(Bench.InCell(what, cell) with { HeldBy = held, Remember = remember });
        var odd = In("Top plate screw, long", "A1", HeldBy.Screw, Remember.LookAlike);
        Assert.Empty(LookAlikes.In([odd, In("Top plate screw, short", "A2", HeldBy.Screw), In("Cell spring", "A1", HeldBy.Spring)]));
        Assert.Empty(LookAlikes.In([In("Ring", "B1", HeldBy.Ring), In("Ring", "B1", HeldBy.Ring)]));
        var warning = Assert.Single(LookAlikes.In([odd, In("Top plate screws, short", "A1", HeldBy.Loose)]));
        Assert.Equal("A1", warning.Cell.ToString());
        odd.Items.Clear();
        Assert.Empty(LookAlikes.In([odd, In("Top plate screw, short", "A1", HeldBy.Screw)]));
    }
}
