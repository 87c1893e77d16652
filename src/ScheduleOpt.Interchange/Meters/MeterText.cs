using System.Text;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>Turns the octets of a file into text.</summary>
internal static class MeterText
{
    private const int Head = 512;

    /// <summary>A reader that decodes; undecodable octets become replacement characters.</summary>
    public static TextReader Open(Stream stream)
    {
        var head = new byte[Head];
        var length = stream.ReadAtLeast(head, Head, throwOnEndOfStream: false);
        var encoding = EncodingOf(head.AsSpan(0, length));
        return new StreamReader(new HeadedStream(head.AsMemory(0, length), stream), encoding, detectEncodingFromByteOrderMarks: true, bufferSize: 16_384);
    }

    /// <summary>Whether the first character that is not blank begins a tag, and a reader of the text: from that tag on, or the whole table without a
    /// byte-order mark.</summary>
    public static (bool IsXml, TextReader Text) LooksLikeXml(TextReader text)
    {
        var head = new StringBuilder();
        int c;
        do
        {
            c = text.Read();
            if (c is >= 0 and not '\uFEFF')
            {
                head.Append((char)c);
            }
        }
        while (c >= 0 && (c == '\uFEFF' || char.IsWhiteSpace((char)c)) && head.Length < MeterLimits.PieceCharacters);

        var isXml = c == '<';
        return (isXml, new ResumedReader(isXml ? "<" : head.ToString(), text));
    }

    private static Encoding EncodingOf(ReadOnlySpan<byte> head)
    {
        int evenZeros = 0, oddZeros = 0;
        for (var i = 0; i < head.Length; i++)
        {
            if (head[i] == 0)
            {
                _ = i % 2 == 0 ? evenZeros++ : oddZeros++;
            }
        }

        if (Math.Max(evenZeros, oddZeros) * 4 > head.Length)
        {
            return oddZeros > evenZeros ? Encoding.Unicode : Encoding.BigEndianUnicode;
        }

        var declaration = Encoding.ASCII.GetString(head);
        declaration = declaration.StartsWith("<?xml", StringComparison.Ordinal) ? declaration.Split('>')[0] : "";
        return declaration.Contains("8859-1", StringComparison.OrdinalIgnoreCase) || declaration.Contains("windows-1252", StringComparison.OrdinalIgnoreCase)
            ? Encoding.Latin1
            : new UTF8Encoding(false);
    }
}
