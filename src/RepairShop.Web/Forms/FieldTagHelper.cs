using Microsoft.AspNetCore.Html;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace RepairShop.Web.Forms;

/// <summary>
/// Label, input, hint and error as one. <c>&lt;field asp-for="Input.Rate" hint="…" suffix="€ an hour" size="short" /&gt;</c>
/// <list type="bullet">
/// <item>as: text (default), textarea, select, radios, checkbox, password, email, tel, date, time, number, file, hidden-label text</item>
/// <item>items: choices for select and radios; an enum gets its own</item>
/// <item>needed: a rule asks for it, always or together with another field, though its shape may be empty: no “(optional)” beside it</item>
/// <item>options: id of a datalist for suggestions; list: the suggestions themselves</item>
/// <item>other attributes (autocomplete, autofocus, rows, placeholder, data-…) go to the input</item>
/// </list>
/// </summary>
[HtmlTargetElement("field", Attributes = "asp-for", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class FieldTagHelper(IHtmlGenerator generator) : TagHelper
{
    private static readonly HashSet<string> PlainTypes = ["text", "search", "password", "email", "tel", "date", "time", "number", "file", "url", "datetime-local"];

    [HtmlAttributeName("asp-for")]
    public required ModelExpression For { get; set; }

    public string? As { get; set; }

    public string? Label { get; set; }

    public string? Hint { get; set; }

    public string? Suffix { get; set; }

    /// <summary>short, mid or nothing.</summary>
    public string? Size { get; set; }

    public bool Needed { get; set; }

    public IEnumerable<SelectListItem>? Items { get; set; }

    /// <summary>What the shop has written before, offered while typing.</summary>
    public IEnumerable<string>? Suggest { get; set; }

    [HtmlAttributeNotBound]
    [ViewContext]
    public required ViewContext ViewContext { get; set; }

    private string Name => ViewContext.ViewData.TemplateInfo.GetFullHtmlFieldName(For.Name);

    private string Id => TagBuilder.CreateSanitizedId(Name, "_");

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var kind = As ?? Kind();
        var extras = output.Attributes.Where(a => a.Name != "class").ToDictionary(a => a.Name, a => (object?)a.Value);
        output.Attributes.Clear();
        var error = ViewContext.ViewData.ModelState.TryGetValue(Name, out var entry) && entry.Errors.Count > 0 ? entry.Errors[0].ErrorMessage : null;
        output.TagName = kind == "radios" ? "fieldset" : "div";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", string.Join(' ', new[] { "field", Size, kind == "checkbox" ? "check" : null, error is null ? null : "bad" }.OfType<string>()));
        if (error is not null)
            extras["aria-invalid"] = "true";
        var about = string.Join(' ', new[] { Hint is null ? null : Id + "-hint", error is null ? null : Id + "-error" }.OfType<string>());
        if (about.Length > 0)
            extras["aria-describedby"] = about;

        if (kind == "checkbox")
            Checkbox(output.Content, extras);
        else
            Labelled(output.Content, kind, extras);
        if (error is not null)
            output.Content.AppendHtml(Paragraph("error", Id + "-error", error));
    }

    private string Kind()
    {
        var type = For.Metadata.UnderlyingOrModelType;
        if (Items is not null || type.IsEnum)
            return "select";
        return For.Metadata.DataTypeName switch
        {
            "Password" => "password",
            "EmailAddress" => "email",
            "PhoneNumber" => "tel",
            "MultilineText" => "textarea",
            _ when type == typeof(bool) => "checkbox",
            _ when type == typeof(DateOnly) => "date",
            _ when type == typeof(TimeOnly) => "time",
            _ when type == typeof(DateTime) => "datetime-local",
            _ => "text",
        };
    }

    private void Checkbox(TagHelperContent content, Dictionary<string, object?> extras)
    {
        var label = new TagBuilder("label");
        label.InnerHtml.AppendHtml(generator.GenerateCheckBox(ViewContext, For.ModelExplorer, For.Name, For.Model as bool?, extras));
        label.InnerHtml.AppendHtml(Element("span", Text()));
        content.AppendHtml(label);
        // Tells the binder "not ticked" from "not asked".
        content.AppendHtml(generator.GenerateHiddenForCheckbox(ViewContext, For.ModelExplorer, For.Name));
        if (Hint is not null)
            content.AppendHtml(Paragraph("hint", Id + "-hint", Hint));
    }

    private void Labelled(TagHelperContent content, string kind, Dictionary<string, object?> extras)
    {
        var label = new TagBuilder(kind == "radios" ? "legend" : "label");
        if (kind != "radios")
            label.Attributes["for"] = Id;
        label.InnerHtml.Append(Text());
        if (!For.Metadata.IsRequired && !Needed && kind is not ("radios" or "file"))
            label.InnerHtml.Append(" ").AppendHtml(Element("span", "(optional)", "optional"));
        content.AppendHtml(label);
        if (Hint is not null)
            content.AppendHtml(Paragraph("hint", Id + "-hint", Hint));
        var entry = new TagBuilder("div");
        entry.AddCssClass(kind == "radios" ? "choices" : "entry");
        entry.InnerHtml.AppendHtml(Control(kind, extras));
        if (Suffix is not null)
            entry.InnerHtml.AppendHtml(Element("span", Suffix, "unit"));
        content.AppendHtml(entry);
    }

    private IHtmlContent Control(string kind, Dictionary<string, object?> extras)
    {
        switch (kind)
        {
            case "textarea":
                return generator.GenerateTextArea(ViewContext, For.ModelExplorer, For.Name, rows: 0, columns: 0, extras);
            case "select":
                return generator.GenerateSelect(ViewContext, For.ModelExplorer, optionLabel: null, For.Name, Choices(), allowMultiple: false, extras);
            case "radios":
                return Radios(extras);
            case "password":
                return generator.GeneratePassword(ViewContext, For.ModelExplorer, For.Name, value: null, extras);
        }

        if (!PlainTypes.Contains(kind))
            throw new InvalidOperationException($"<field as=\"{kind}\"> is not known.");
        extras["type"] = kind;
        if (FieldText.IsNumber(For.Metadata.UnderlyingOrModelType) && kind == "text")
            extras.TryAdd("inputmode", "decimal");
        extras.TryAdd("autocomplete", "off");
        if (Suggest is not null)
            extras["list"] = Id + "-list";
        var input = generator.GenerateTextBox(ViewContext, For.ModelExplorer, For.Name, kind == "file" ? null : FieldText.Of(For.Model), format: null, extras);
        return Suggest is null ? input : new HtmlContentBuilder().AppendHtml(input).AppendHtml(Suggestions(Suggest));
    }

    private HtmlContentBuilder Radios(Dictionary<string, object?> extras)
    {
        var all = new HtmlContentBuilder();
        foreach (var (item, number) in Choices().Select((item, number) => (item, number)))
        {
            var label = new TagBuilder("label");
            var own = new Dictionary<string, object?>(extras) { ["id"] = number == 0 ? Id : $"{Id}-{number}" };
            label.InnerHtml.AppendHtml(generator.GenerateRadioButton(ViewContext, For.ModelExplorer, For.Name, item.Value, isChecked: null, own));
            label.InnerHtml.AppendHtml(Element("span", item.Text));
            all.AppendHtml(label);
        }

        return all;
    }

    private TagBuilder Suggestions(IEnumerable<string> suggestions)
    {
        var list = new TagBuilder("datalist");
        list.Attributes["id"] = Id + "-list";
        foreach (var suggestion in suggestions)
        {
            var option = new TagBuilder("option") { TagRenderMode = TagRenderMode.SelfClosing };
            option.Attributes["value"] = suggestion;
            list.InnerHtml.AppendHtml(option);
        }

        return list;
    }

    private IEnumerable<SelectListItem> Choices() => Items ?? FieldText.ChoicesOf(For.Metadata.UnderlyingOrModelType);

    private string Text() => Label ?? For.Metadata.DisplayName ?? FieldText.Words(For.Metadata.PropertyName ?? For.Name);

    private static TagBuilder Paragraph(string cssClass, string id, string text)
    {
        var paragraph = Element("p", text, cssClass);
        paragraph.Attributes["id"] = id;
        return paragraph;
    }

    private static TagBuilder Element(string name, string text, string? cssClass = null)
    {
        var element = new TagBuilder(name);
        if (cssClass is not null)
            element.AddCssClass(cssClass);
        element.InnerHtml.Append(text);
        return element;
    }
}
