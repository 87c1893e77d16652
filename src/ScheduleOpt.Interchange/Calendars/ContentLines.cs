using System.Text;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Unfolds a calendar into its property lines.</summary>
/// <remarks>
/// RFC 5545, section 3.1: a line is folded at 75 octets by a line break and one space or tab, and a fold may split a character of several
/// octets. So octets are joined first and decoded after. A bare line feed is taken as a line break too.
/// </remarks>
internal static class ContentLines
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The property lines in order; faults are added to the list, and the reading stops at the first.</summary>
    internal static List<ContentLine> Read(ReadOnlySpan<byte> octets, string pointer, List<Fault> faults)
    {
        var lines = new List<ContentLine>();
        var joined = new List<byte>(256);
        var (line, begun) = (1, 1);
        octets = octets.StartsWith<byte>([0xEF, 0xBB, 0xBF]) ? octets[3..] : octets;
        while (faults.Count == 0)
        {
            var feed = octets.IndexOf((byte)'\n');
            var physical = feed < 0 ? octets : octets[..feed];
            joined.AddRange(physical is [.., (byte)'\r'] ? physical[..^1] : physical);
            octets = feed < 0 ? [] : octets[(feed + 1)..];
            line++;
            if (octets is [(byte)' ' or (byte)'\t', ..])
            {
                octets = octets[1..];
                continue;
            }

            Add(joined, begun, lines, pointer, faults);
            joined.Clear();
            begun = line;
            if (octets.IsEmpty)
            {
                break;
            }
        }

        return lines;
    }

    private static void Add(List<byte> joined, int line, List<ContentLine> lines, string pointer, List<Fault> faults)
    {
        string text;
        try
        {
            text = Strict.GetString([.. joined]);
        }
        catch (DecoderFallbackException)
        {
            faults.Add(new Fault(pointer, "A calendar is UTF-8 text; these octets are not.", "", line));
            return;
        }

        if (text.Trim().Length == 0)
        {
            return;
        }

        if (ContentLine.Parse(text, line) is { } parsed)
        {
            lines.Add(parsed);
        }
        else
        {
            faults.Add(new Fault(pointer, "A line of a calendar reads NAME;PARAMETER=value:value.", Shortened.Text(text), line));
        }
    }
}
