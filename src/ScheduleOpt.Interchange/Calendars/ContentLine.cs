namespace ScheduleOpt.Interchange.Calendars;

/// <summary>One property line of a calendar, unfolded. RFC 5545, section 3.1.</summary>
/// <param name="Name">The property's name in capitals.</param>
/// <param name="Parameters">Its parameters, names in capitals, quotes taken off.</param>
/// <param name="Value">The value as it stands, escapes included.</param>
/// <param name="Line">The line it begins at, from 1.</param>
internal sealed record ContentLine(string Name, IReadOnlyDictionary<string, string> Parameters, string Value, int Line)
{
    private static readonly Dictionary<string, string> NoParameters = [];

    /// <summary>Takes a line apart; null where it is malformed.</summary>
    internal static ContentLine? Parse(string text, int line)
    {
        var position = NameEnd(text, 0);
        if (position == 0 || position == text.Length)
        {
            return null;
        }

        var name = text[..position].ToUpperInvariant();
        var parameters = NoParameters;
        while (text[position] == ';')
        {
            var equals = NameEnd(text, position + 1);
            if (equals == position + 1 || equals >= text.Length || text[equals] != '=')
            {
                return null;
            }

            var end = ValueEnd(text, equals + 1);
            if (end >= text.Length)
            {
                return null;
            }

            parameters = parameters.Count == 0 ? new Dictionary<string, string>(StringComparer.Ordinal) : parameters;
            parameters[text[(position + 1)..equals].ToUpperInvariant()] =
                text[(equals + 1)..end].Replace("\"", "", StringComparison.Ordinal);
            position = end;
        }

        return text[position] == ':' ? new ContentLine(name, parameters, text[(position + 1)..], line) : null;
    }

    /// <summary>The value with the escapes of TEXT taken off. RFC 5545, section 3.3.11.</summary>
    internal string Text()
    {
        var text = new System.Text.StringBuilder(Value.Length);
        for (var i = 0; i < Value.Length; i++)
        {
            if (Value[i] == '\\' && i + 1 < Value.Length)
            {
                i++;
                text.Append(Value[i] is 'n' or 'N' ? '\n' : Value[i]);
            }
            else
            {
                text.Append(Value[i]);
            }
        }

        return text.ToString();
    }

    /// <summary>The parts of a comma-listed TEXT value; an escaped comma does not part them.</summary>
    internal IEnumerable<string> TextList()
    {
        var start = 0;
        for (var i = 0; i <= Value.Length; i++)
        {
            if (i == Value.Length || Value[i] == ',')
            {
                yield return (this with { Value = Value[start..i] }).Text().Trim();
                start = i + 1;
            }
            else if (Value[i] == '\\')
            {
                i = Math.Min(i + 1, Value.Length - 1);
            }
        }
    }

    private static int NameEnd(string text, int from)
    {
        var i = from;
        while (i < text.Length && (char.IsAsciiLetterOrDigit(text[i]) || text[i] == '-'))
        {
            i++;
        }

        return i;
    }

    // A quoted parameter value may hold colons, semicolons and commas.
    private static int ValueEnd(string text, int from)
    {
        var quoted = false;
        for (var i = from; i < text.Length; i++)
        {
            if (text[i] == '"')
            {
                quoted = !quoted;
            }
            else if (!quoted && text[i] is ':' or ';')
            {
                return i;
            }
        }

        return text.Length;
    }
}
