namespace ScheduleOpt.Interchange.Weather;

/// <summary>The lines of a text with their numbers from 1, line breaks and a byte-order mark taken off.</summary>
internal static class TextLines
{
    internal static IEnumerable<(int Number, string Text)> Of(string text)
    {
        using var reader = new StringReader(text.TrimStart('\uFEFF'));
        for (var number = 1; reader.ReadLine() is { } line; number++)
        {
            yield return (number, line.Trim());
        }
    }
}
