namespace ScheduleOpt.Interchange.Calendars;

/// <summary>The BY... parts of a recurrence rule and what each may hold. RFC 5545, section 3.3.10.</summary>
internal static class RecurrencePart
{
    private static readonly string[] Weekdays = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];

    /// <summary>What is wrong with a part, as a sentence; null where it is right.</summary>
    internal static string? Fault(string name, string value, string frequency, bool byWeek) => name switch
    {
        "WKST" => Weekdays.Contains(value) ? null : "WKST is MO, TU, WE, TH, FR, SA or SU.",
        "BYMONTH" => All(value, v => Within(v, 1, 12)) ? null : "BYMONTH lists months from 1 to 12.",
        "BYMONTHDAY" => frequency != "WEEKLY" && All(value, v => Signed(v, 31))
            ? null
            : "BYMONTHDAY lists days from 1 to 31 or -31 to -1, and does not go with WEEKLY.",
        "BYYEARDAY" => frequency == "YEARLY" && All(value, v => Signed(v, 366))
            ? null
            : "BYYEARDAY lists days from 1 to 366 or -366 to -1, and goes with YEARLY alone.",
        "BYWEEKNO" => frequency == "YEARLY" && All(value, v => Signed(v, 53))
            ? null
            : "BYWEEKNO lists weeks from 1 to 53 or -53 to -1, and goes with YEARLY alone.",
        "BYSETPOS" => All(value, v => Signed(v, 366)) ? null : "BYSETPOS lists positions from 1 to 366 or -366 to -1.",
        "BYDAY" => All(value, v => Day(v, frequency is "MONTHLY" || (frequency is "YEARLY" && !byWeek)))
            ? null
            : "BYDAY lists MO to SU; numbers before them (such as 2MO or -1FR) go with MONTHLY, and with YEARLY without BYWEEKNO.",
        _ => "Known parts are FREQ, INTERVAL, COUNT, UNTIL, WKST, BYDAY, BYMONTHDAY, BYYEARDAY, BYWEEKNO, BYMONTH and BYSETPOS.",
    };

    private static bool All(string list, Func<string, bool> holds) => list.Split(',').All(holds);

    private static bool Within(string text, int low, int high) => RecurrenceRule.Number(text, low, high) is not null;

    private static bool Signed(string text, int high) => RecurrenceRule.Number(text, -high, high) is not (null or 0);

    private static bool Day(string text, bool numbered) =>
        text.Length >= 2
        && Weekdays.Contains(text[^2..])
        && (text.Length == 2 || (numbered && Signed(text[..^2], 53)));
}
