using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace RepairShop.Testing;

/// <summary>
/// A browser without script: opens pages, fills in the form as rendered and sends it with everything that was in it, antiforgery
/// token included. Follows redirects unless told otherwise; says where it came from, as browsers do.
/// </summary>
public sealed class FormClient(HttpClient http) : IDisposable
{
    private static readonly HtmlParser Parser = new();

    /// <summary>The present page.</summary>
    public IHtmlDocument Page { get; private set; } = Parser.ParseDocument("");

    public HttpResponseMessage Response { get; private set; } = new();

    public HttpStatusCode Status => Response.StatusCode;

    /// <summary>Path and query of the present page.</summary>
    public string Url { get; private set; } = "/";

    public HttpClient Http => http;

    /// <summary>The page's text with runs of blanks as one.</summary>
    public string Text => string.Join(' ', (Page.Body?.TextContent ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    public string Heading => Page.QuerySelector("h1")?.TextContent.Trim() ?? "";

    public IReadOnlyList<string> Errors => [.. Page.QuerySelectorAll(".form-errors li").Select(item => item.TextContent.Trim())];

    public string? Notice => Page.QuerySelector(".notice p")?.TextContent.Trim();

    public Task Open(string url) => Send(new HttpRequestMessage(HttpMethod.Get, url));

    /// <summary>Presses a button, named by its words, after filling in fields by name; the words may be left out where a form has one button.</summary>
    public Task Press(string button, params (string Name, string Value)[] fields)
    {
        var (form, action, values) = Filled(button, fields);
        return form.Method.Equals("post", StringComparison.OrdinalIgnoreCase)
            ? Post(action, values)
            : Open($"{action.Split('?')[0]}?{string.Join('&', values.Select(pair => $"{Uri.EscapeDataString(pair.Key)}={Uri.EscapeDataString(pair.Value)}"))}");
    }

    /// <summary>Presses a button of a form with one file in it.</summary>
    public async Task Upload(string button, string field, string fileName, byte[] bytes, params (string Name, string Value)[] fields)
    {
        var (_, action, values) = Filled(button, fields);
        using var content = new MultipartFormDataContent();
        foreach (var (name, value) in values)
            content.Add(new StringContent(value), name);
        content.Add(new ByteArrayContent(bytes), field, fileName);
        await Send(new HttpRequestMessage(HttpMethod.Post, action) { Content = content });
    }

    public Task Post(string url, IEnumerable<KeyValuePair<string, string>> values) =>
        Send(new HttpRequestMessage(HttpMethod.Post, url) { Content = new FormUrlEncodedContent(values) });

    public async Task Send(HttpRequestMessage request)
    {
        if (request.Method != HttpMethod.Get && !request.Headers.Contains("Origin"))
            request.Headers.Add("Origin", http.BaseAddress!.GetLeftPart(UriPartial.Authority));
        Response = await http.SendAsync(request);
        Url = Response.RequestMessage!.RequestUri!.PathAndQuery;
        Page = Parser.ParseDocument(await Response.Content.ReadAsStringAsync());
    }

    /// <summary>What the field holds on the present page.</summary>
    public string? Value(string name) => Page.QuerySelector($"main [name='{name}']") switch
    {
        IHtmlInputElement { Type: "radio" } => Page.QuerySelectorAll<IHtmlInputElement>($"main [name='{name}']").FirstOrDefault(one => one.IsChecked)?.Value,
        IHtmlInputElement { Type: "checkbox" } tick => tick.IsChecked ? "true" : "false",
        IHtmlInputElement input => input.Value,
        IHtmlTextAreaElement area => area.Value,
        IHtmlSelectElement select => select.Value,
        _ => null,
    };

    public void Dispose()
    {
        Response.Dispose();
        http.Dispose();
    }

    private (IHtmlFormElement Form, string Action, List<KeyValuePair<string, string>> Values) Filled(string button, (string Name, string Value)[] fields)
    {
        var found = Page.QuerySelectorAll("main button, header button, button").OfType<IHtmlButtonElement>()
            .FirstOrDefault(one => Words(one) == button)
            ?? throw new InvalidOperationException($"{Url} has no button “{button}”, only: {string.Join(", ", Page.QuerySelectorAll("button").Select(Words))}.");
        var form = found.Form ?? throw new InvalidOperationException($"The button “{button}” stands in no form.");
        var values = Values(form);
        if (found.Name is { Length: > 0 } name)
            values.Add(new(name, found.Value));
        foreach (var (field, value) in fields)
        {
            if (form.Elements.All(element => element.GetAttribute("name") != field))
                throw new InvalidOperationException($"The form has no field “{field}”.");
            values.RemoveAll(pair => pair.Key == field);
            values.Add(new(field, value));
        }

        return (form, found.GetAttribute("formaction") ?? form.GetAttribute("action") ?? Url, values);
    }

    private static string Words(IElement button) => string.Join(' ', button.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static List<KeyValuePair<string, string>> Values(IHtmlFormElement form)
    {
        var values = new List<KeyValuePair<string, string>>();
        foreach (var element in form.Elements.Where(element => element.GetAttribute("name") is { Length: > 0 }))
        {
            var name = element.GetAttribute("name")!;
            switch (element)
            {
                case IHtmlInputElement { Type: "checkbox" or "radio", IsChecked: false }:
                case IHtmlInputElement { Type: "file" or "submit" or "button" }:
                case IHtmlButtonElement:
                    break;
                case IHtmlInputElement input:
                    values.Add(new(name, input.Value));
                    break;
                case IHtmlTextAreaElement area:
                    values.Add(new(name, area.Value));
                    break;
                case IHtmlSelectElement select:
                    values.AddRange(select.Options.Where(option => option.IsSelected).Select(option => new KeyValuePair<string, string>(name, option.Value)));
                    break;
            }
        }

        return values;
    }
}
