namespace ScheduleOpt.Interchange.Tests.Meters;

/// <summary>Slips and malice in a text: a character, a line, a value, a cut.</summary>
internal static class Mutation
{
    private static readonly string[] OddValues =
    [
        "", "-1", "0", "1e400", "99999999999999999999999", "-140737488355328", "140737488355327", "9223372036854775807", "253402300800", "-62135596800", "NaN", "null", "3600", "0x10",
        "<", ">", "&amp;", "\"", ",", ",,,,", ";", "24:00", "25:61", "2026-02-30", "0001-01-01", "9999-12-31", "1,028.00", "\u0000", "\ud83d\ude97", "FFFFFFFF", "360E2000", "true", "12",
    ];

    public static string Of(string text, Random random)
    {
        for (var slips = random.Next(1, 4); slips > 0; slips--)
        {
            text = Once(text, random);
        }

        return text;
    }

    private static string Once(string text, Random random)
    {
        if (text.Length < 4)
        {
            return text + "x";
        }

        var at = random.Next(text.Length - 1);
        switch (random.Next(8))
        {
            case 0:
                return text[..at] + (char)random.Next(1, 0x3000) + text[(at + 1)..];
            case 1:
                return text.Remove(at, Math.Min(random.Next(1, 200), text.Length - at));
            case 2:
                var length = Math.Min(random.Next(1, 300), text.Length - at);
                return text.Insert(random.Next(text.Length), text.Substring(at, length));
            case 3:
                return text[..at];
            default:
                // A run of letters and digits becomes something odd.
                int from = at, to = at;
                while (from > 0 && char.IsLetterOrDigit(text[from - 1]))
                {
                    from--;
                }

                while (to < text.Length && (char.IsLetterOrDigit(text[to]) || text[to] is '.' or '-'))
                {
                    to++;
                }

                return text[..from] + OddValues[random.Next(OddValues.Length)] + text[to..];
        }
    }
}
