using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace RepairShop.Browser.Tests.Pages;

/// <summary>Follows the links of the book; of addresses that differ only in a number or key, one stands for all.</summary>
internal static partial class Crawler
{
    [GeneratedRegex(@"[0-9a-f]{8}-[0-9a-f-]{27}|(?<=/repairs/)[^/?]+(?=/|$|\?)|(?<=[=/])[0-9][0-9A-Za-z.-]*")]
    private static partial Regex Key();

    /// <returns>Addresses without the host, one a pattern, in the order found.</returns>
    public static async Task<IReadOnlyList<string>> PagesAsync(IPage page, string host, IEnumerable<string> starts)
    {
        var found = new List<string>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var queue = new Queue<string>();
        void Add(string path)
        {
            if (seen.Add(Pattern(path)))
                queue.Enqueue(path);
        }

        foreach (var start in starts)
        {
            seen.Add(Pattern(start));
            queue.Enqueue(start);
        }
        while (queue.TryDequeue(out var path))
        {
            var answer = await page.Context.APIRequest.GetAsync(host + path);
            if (!answer.Headers.TryGetValue("content-type", out var type) || !type.StartsWith("text/html", StringComparison.Ordinal))
                continue; // a paper or a photo
            found.Add(path);
            foreach (Match link in Link().Matches(await answer.TextAsync()))
                Add(System.Net.WebUtility.HtmlDecode(link.Groups[1].Value).Split('#')[0]);
        }
        return found;
    }

    [GeneratedRegex("<a [^>]*href=\"(/[^\"]*)\"")]
    private static partial Regex Link();

    /// <summary>"/repairs/2026-0017/papers" and "/repairs/2026-0018/papers" are one page; what is asked behind "?" is told apart by its names.</summary>
    private static string Pattern(string path)
    {
        var parts = path.Split('?', 2);
        var place = parts[0] == "/repairs/new" ? parts[0] : Key().Replace(parts[0], "*");
        var asked = parts.Length == 1 ? "" : string.Join('&', parts[1].Split('&').Select(pair => pair.Split('=')[0]).Order(StringComparer.Ordinal));
        return $"{place}?{asked}";
    }
}
