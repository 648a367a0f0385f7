using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;

namespace RepairShop.Services.Tools;

internal static class RegisterPages
{
    public const int Size = 50;

    /// <summary>A pattern that finds the text anywhere, whatever signs it holds.</summary>
    public static string Inside(string text) =>
        "%" + text.Trim().Replace(@"\", @"\\", StringComparison.Ordinal).Replace("%", @"\%", StringComparison.Ordinal)
            .Replace("_", @"\_", StringComparison.Ordinal) + "%";

    public static async Task<Register<TLine>> PageAsync<TRow, TLine>(
        this IQueryable<TRow> rows, int page, Expression<Func<TRow, TLine>> line, CancellationToken cancel)
    {
        var count = await rows.CountAsync(cancel);
        var pages = Math.Max(1, (count + Size - 1) / Size);
        var at = Math.Clamp(page, 1, pages);
        return new Register<TLine>(await rows.Skip((at - 1) * Size).Take(Size).Select(line).ToListAsync(cancel), count, at, pages);
    }
}
