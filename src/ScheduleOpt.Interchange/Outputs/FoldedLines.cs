using System.Text;

namespace ScheduleOpt.Interchange.Outputs;

/// <summary>Content lines of an iCalendar text: CRLF at their ends, folded after 75 octets (RFC 5545, section 3.1).</summary>
internal sealed class FoldedLines
{
    private const int MostOctets = 75;

    private readonly StringBuilder text = new();

    /// <summary>Adds a line whose value needs no escaping.</summary>
    public void Add(string name, string value)
    {
        var octets = 0;
        foreach (var rune in $"{name}:{value}".EnumerateRunes())
        {
            // A character is kept whole: readers that decode before they unfold would see a broken one.
            if (octets + rune.Utf8SequenceLength > MostOctets)
            {
                text.Append("\r\n ");
                octets = 1;
            }

            text.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }

        text.Append("\r\n");
    }

    /// <summary>Adds a line whose value is a text (section 3.3.11).</summary>
    public void AddText(string name, string value)
    {
        var escaped = new StringBuilder(value.Length + 8);
        foreach (var c in value.ReplaceLineEndings("\n"))
        {
            if (c is '\\' or ';' or ',')
            {
                escaped.Append('\\').Append(c);
            }
            else if (c == '\n')
            {
                escaped.Append("\\n");
            }
            else if (!char.IsControl(c) || c == '\t')
            {
                escaped.Append(c);
            }
        }

        Add(name, escaped.ToString());
    }

    /// <summary>The text as UTF-8.</summary>
    public byte[] ToUtf8() => Encoding.UTF8.GetBytes(text.ToString());
}
