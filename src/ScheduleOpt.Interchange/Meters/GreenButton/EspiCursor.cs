using System.Globalization;
using System.Text;
using System.Xml;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Walks through an XML file, forward only and no deeper than is allowed.</summary>
internal sealed class EspiCursor(XmlReader reader, ReadingNotes notes)
{
    private const int LongestText = 256;

    public bool IsElement => reader.NodeType == XmlNodeType.Element;

    public bool IsEnd => reader.NodeType == XmlNodeType.EndElement;

    public bool IsEmpty => reader.IsEmptyElement;

    /// <summary>Name without its prefix. The namespace is not looked at: files get it wrong, and the names suffice.</summary>
    public string Name => reader.LocalName;

    public int Depth => reader.Depth;

    public int? Line => (reader as IXmlLineInfo)?.LineNumber;

    public string? Attribute(string name) => reader.GetAttribute(name);

    public bool Move()
    {
        var moved = reader.Read();
        return !moved || reader.Depth <= MeterLimits.Depth
            ? moved
            : throw new FileRefusedException(new("#", $"Elements must not be nested deeper than {MeterLimits.Depth} levels.", "", Line));
    }

    /// <summary>Calls for each child element of the element that the cursor is on, and leaves the cursor on its end.</summary>
    public void Children(Action<string> take)
    {
        if (reader.IsEmptyElement)
        {
            return;
        }

        var depth = reader.Depth;
        while (Move() && reader.Depth > depth)
        {
            if (IsElement && reader.Depth == depth + 1)
            {
                take(reader.LocalName);
            }
        }
    }

    /// <summary>Text of the element that the cursor is on, shortened; leaves the cursor on its end.</summary>
    public string Text()
    {
        if (reader.IsEmptyElement)
        {
            return "";
        }

        var depth = reader.Depth;
        string first = "";
        StringBuilder? more = null;
        while (Move() && reader.Depth > depth)
        {
            if (reader.NodeType is XmlNodeType.Text or XmlNodeType.CDATA)
            {
                if (first.Length == 0)
                {
                    first = reader.Value;
                }
                else if (first.Length + (more?.Length ?? 0) <= LongestText)
                {
                    (more ??= new StringBuilder()).Append(reader.Value);
                }
            }
        }

        var text = (more is null ? first : first + more).Trim();
        return text.Length <= LongestText ? text : text[..LongestText];
    }

    /// <summary>Whole number of the element that the cursor is on; a fault and none where it is not one within the limits.</summary>
    public long? Whole(string pointer, long least, long most)
    {
        var (name, line) = (Name, Line);
        var text = Text();
        if (long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most)
        {
            return number;
        }

        notes.Fault($"{pointer}/{name}", $"It must be a whole number from {least} to {most}.", text, line);
        return null;
    }
}
