using System.Xml;
using System.Xml.Linq;
using RepairShop.Domain.Banking;

namespace RepairShop.Services.Banking;

/// <summary>Walks an XML text with everything turned off that a statement does not need, and builds one element at a time.</summary>
internal static class CamtElements
{
    /// <summary>A statement's own elements go some twelve deep.</summary>
    public const int Deepest = 40;

    /// <summary>Some five thousand transactions in one entry.</summary>
    private const int MostElements = 400_000;

    /// <summary>No document type, so no entities; nothing is fetched; no longer than the file may be.</summary>
    public static XmlReaderSettings Settings { get; } = new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        MaxCharactersInDocument = StatementParts.MostBytes,
        MaxCharactersFromEntities = 1024,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        IgnoreWhitespace = true,
    };

    public static int Line(XmlReader reader) => reader is IXmlLineInfo info ? info.LineNumber : 0;

    /// <summary>The element the reader stands on, whole, without calling itself: depth is counted, not stacked.</summary>
    public static XElement Take(XmlReader reader)
    {
        var root = Open(reader);
        if (reader.IsEmptyElement)
        {
            reader.Read();
            return root;
        }

        var here = root;
        var elements = 0;
        while (reader.Read())
        {
            switch (reader.NodeType)
            {
                case XmlNodeType.Element:
                    if (reader.Depth > Deepest)
                        throw new RefusedException(new XmlTooDeep(Line(reader)));
                    if (++elements > MostElements)
                        throw new RefusedException(new XmlTooFull(Line(reader)));
                    var child = Open(reader);
                    here.Add(child);
                    if (!reader.IsEmptyElement)
                        here = child;
                    break;
                case XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace:
                    here.Add(new XText(reader.Value)); // a plain string would be copied anew with every piece
                    break;
                case XmlNodeType.EndElement when here == root:
                    reader.Read();
                    return root;
                case XmlNodeType.EndElement:
                    here = here.Parent!;
                    break;
            }
        }

        throw new XmlException("The text ends inside an element.", null, Line(reader), 0);
    }

    /// <summary>The first element at the end of a path of local names: one namespace holds in the whole file.</summary>
    public static XElement? At(this XElement from, params ReadOnlySpan<string> path)
    {
        var here = from;
        foreach (var name in path)
        {
            if (here.Elements().FirstOrDefault(one => one.Name.LocalName == name) is not { } next)
                return null;
            here = next;
        }

        return here;
    }

    public static IEnumerable<XElement> All(this XElement from, string name) => from.Elements().Where(one => one.Name.LocalName == name);

    /// <summary>Its text without blanks around it; empty where it is not there.</summary>
    public static string TextAt(this XElement from, params ReadOnlySpan<string> path) => from.At(path)?.Value.Trim() ?? "";

    private static XElement Open(XmlReader reader)
    {
        var element = new XElement(reader.LocalName);
        // Of all attributes a statement has only the currency matters.
        if (reader.GetAttribute("Ccy") is { } currency)
            element.Add(new XAttribute("Ccy", currency));
        return element;
    }
}
