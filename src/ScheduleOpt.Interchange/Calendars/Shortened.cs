namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Foreign text made fit to be repeated in a message.</summary>
internal static class Shortened
{
    /// <summary>At most 60 characters, control characters as spaces.</summary>
    internal static string Text(string text) => Text(text, 60);

    /// <summary>At most so many characters, control characters as spaces.</summary>
    internal static string Text(string text, int length)
    {
        var clean = string.Concat(text.Trim().Take(length).Select(c => char.IsControl(c) ? ' ' : c));
        return text.Trim().Length > length ? clean + "..." : clean;
    }
}
