using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace RepairShop.Web.Forms;

/// <summary>
/// <c>&lt;form-errors /&gt;</c>: on top of a form, the sentences about the whole of it; the fields' own stand at the fields, and
/// here is a count that leads to the first of them.
/// </summary>
[HtmlTargetElement("form-errors", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class FormErrorsTagHelper : TagHelper
{
    [HtmlAttributeNotBound]
    [ViewContext]
    public required ViewContext ViewContext { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        // A look-up takes its errors away one by one, and the state's own count does not notice: count what is really there.
        var wrong = InOrderOfTheForm(ViewContext.ViewData.ModelState.Where(entry => entry.Value is { Errors.Count: > 0 }));
        if (wrong.Count == 0)
        {
            output.SuppressOutput();
            return;
        }

        output.TagName = "div";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", "form-errors");
        output.Attributes.SetAttribute("role", "alert");
        var list = new TagBuilder("ul");
        foreach (var (key, entry) in wrong)
            foreach (var error in entry!.Errors)
                list.InnerHtml.AppendHtml(Item(key, error.ErrorMessage));
        output.Content.SetHtmlContent(list);
    }

    /// <summary>The whole form's sentences first, then the fields from top to bottom: a browser sends them in that order.</summary>
    private List<KeyValuePair<string, ModelStateEntry?>> InOrderOfTheForm(IEnumerable<KeyValuePair<string, ModelStateEntry?>> wrong)
    {
        var request = ViewContext.HttpContext.Request;
        var sent = request.HasFormContentType ? request.Form.Keys.ToList() : [];
        return [.. wrong.OrderBy(entry => entry.Key.Length == 0 ? -1 : sent.IndexOf(entry.Key) is >= 0 and var place ? place : int.MaxValue)];
    }

    private static TagBuilder Item(string key, string sentence)
    {
        var item = new TagBuilder("li");
        if (key.Length == 0)
        {
            item.InnerHtml.Append(sentence);
            return item;
        }

        var link = new TagBuilder("a");
        link.Attributes["href"] = "#" + TagBuilder.CreateSanitizedId(key, "_");
        link.InnerHtml.Append(sentence);
        item.InnerHtml.AppendHtml(link);
        return item;
    }
}
