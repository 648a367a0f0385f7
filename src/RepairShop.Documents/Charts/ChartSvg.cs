using System.Globalization;
using System.Text;
using System.Xml;

namespace RepairShop.Documents.Charts;

/// <summary>
/// A chart as SVG for a page: classes only, no colour and no style attribute, so that a strict content policy and both themes
/// hold. The page styles <c>.chart .band</c>, <c>.grid</c>, <c>.zero</c>, <c>.limit</c>, <c>.before</c>, <c>.before-link</c>,
/// <c>.after</c>, <c>.after-link</c>, <c>.opening</c>, <c>.closing</c>, <c>.crossing</c>, <c>.before-trace</c>, <c>.after-trace</c>, <c>.label</c>
/// and <c>.note</c>, and <c>.start .middle .end</c> as text-anchor. A chart over time says in data attributes where its times stand and how its
/// figures are written; what a script draws anew for another stretch of time is a <c>.tick</c>.
/// </summary>
public static class ChartSvg
{
    /// <param name="drawing">What to draw.</param>
    /// <param name="id">Unique on the page; title and description hang on it.</param>
    public static string Write(ChartDrawing drawing, string id)
    {
        var text = new StringBuilder();
        using (var xml = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true, ConformanceLevel = ConformanceLevel.Fragment }))
        {
            xml.WriteStartElement("svg", "http://www.w3.org/2000/svg");
            xml.WriteAttributeString("class", "chart");
            xml.WriteAttributeString("viewBox", $"0 0 {Number(drawing.Width)} {Number(drawing.Height)}");
            xml.WriteAttributeString("role", "img");
            xml.WriteAttributeString("aria-labelledby", $"{id}-title {id}-desc");
            if (drawing.Span is { } span)
            {
                xml.WriteAttributeString("data-span", string.Create(CultureInfo.InvariantCulture, $"{Number(span.Left)} {Number(span.Right)} {span.FromMilliseconds} {span.ToMilliseconds}"));
                xml.WriteAttributeString("data-minus", span.Minus);
                xml.WriteAttributeString("data-decimal", span.DecimalSign);
            }

            Named(xml, "title", $"{id}-title", drawing.Title);
            Named(xml, "desc", $"{id}-desc", drawing.Description);
            foreach (var mark in drawing.Marks)
                Write(xml, mark);
            xml.WriteEndElement();
        }
        return text.ToString();
    }

    private static void Named(XmlWriter xml, string element, string id, string text)
    {
        xml.WriteStartElement(element);
        xml.WriteAttributeString("id", id);
        xml.WriteString(text);
        xml.WriteEndElement();
    }

    private static void Write(XmlWriter xml, ChartMark mark)
    {
        switch (mark)
        {
            case ChartRect rect:
                Element(xml, "rect", mark.Look, null, ("x", rect.X), ("y", rect.Y), ("width", rect.Width), ("height", rect.Height));
                break;
            case ChartLine line:
                Element(xml, "line", mark.Look, null, ("x1", line.X1), ("y1", line.Y1), ("x2", line.X2), ("y2", line.Y2));
                break;
            case ChartPath path:
                xml.WriteStartElement("polyline");
                xml.WriteAttributeString("class", ClassOf(mark.Look));
                xml.WriteAttributeString("points", string.Join(' ', path.Points.Select(point => $"{Number(point.X)},{Number(point.Y)}")));
                xml.WriteEndElement();
                break;
            case ChartDot dot:
                Element(xml, "circle", mark.Look, null, ("cx", dot.X), ("cy", dot.Y), ("r", dot.Radius));
                break;
            case ChartText label:
                Element(xml, "text", mark.Look, label, ("x", label.X), ("y", label.Y));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(mark), mark, "No such mark.");
        }
    }

    private static void Element(XmlWriter xml, string name, ChartLook look, ChartText? label, params ReadOnlySpan<(string Name, double Value)> attributes)
    {
        xml.WriteStartElement(name);
        var anchor = label is null ? "" : label.Anchor switch { ChartAnchor.Middle => " middle", ChartAnchor.End => " end", _ => " start" };
        xml.WriteAttributeString("class", ClassOf(look) + anchor);
        foreach (var (attribute, value) in attributes)
            xml.WriteAttributeString(attribute, Number(value));
        if (label is not null)
            xml.WriteString(label.Text);
        xml.WriteEndElement();
    }

    private static string ClassOf(ChartLook look) => look switch
    {
        ChartLook.Band => "band",
        ChartLook.Grid => "grid",
        ChartLook.Zero => "zero",
        ChartLook.Limit => "limit",
        ChartLook.Before => "before",
        ChartLook.BeforeLink => "before-link",
        ChartLook.After => "after",
        ChartLook.AfterLink => "after-link",
        ChartLook.Label => "label",
        ChartLook.Note => "note",
        ChartLook.Tick => "grid tick",
        ChartLook.TickLabel => "label tick",
        ChartLook.Opening => "opening",
        ChartLook.Closing => "closing",
        ChartLook.Crossing => "crossing",
        ChartLook.BeforeTrace => "before-trace",
        ChartLook.AfterTrace => "after-trace",
        _ => throw new ArgumentOutOfRangeException(nameof(look), look, "No such look."),
    };

    private static string Number(double value) => Math.Round(value, 2).ToString("0.##", CultureInfo.InvariantCulture);
}
