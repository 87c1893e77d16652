using System.Globalization;
using NodaTime;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>A recurrence rule within the limits of this service: daily or coarser, at the time of day of its start.</summary>
/// <remarks>
/// RFC 5545, section 3.3.10. The rule is checked before any library sees it: rules finer than a day, or with lists of hours, can keep a
/// library busy for ever.
/// </remarks>
internal sealed record RecurrenceRule
{
    /// <summary>The rule without its end and without its time of day, fit for the library.</summary>
    internal required string Pattern { get; init; }

    /// <summary>How many instances it has; none: no such end.</summary>
    internal int? Count { get; init; }

    /// <summary>The last instance's latest start, included; a date counts whole; none: no such end.</summary>
    internal EventTime? Until { get; init; }

    /// <summary>The most steps of the rule that can pass in 40 years, the longest a rule of the Gregorian calendar pauses.</summary>
    internal int StepsInFortyYears { get; init; }

    /// <summary>Reads a rule.</summary>
    /// <param name="text">Such as <c>FREQ=WEEKLY;BYDAY=MO,TU</c>.</param>
    /// <param name="start">The first instance.</param>
    /// <param name="pointer">The JSON pointer of the rule.</param>
    /// <param name="line">The line it stands in.</param>
    /// <param name="faults">Takes what is wrong.</param>
    internal static RecurrenceRule? Read(string text, EventTime start, string pointer, int? line, List<Fault> faults)
    {
        var before = faults.Count;
        void Refuse(string rule, string value) => faults.Add(new Fault(pointer, rule, Shortened.Text(value), line));

        var parts = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var part in text.Length > 2000 ? [] : text.Trim().TrimEnd(';').Split(';'))
        {
            var equals = part.IndexOf('=', StringComparison.Ordinal);
            if (equals <= 0 || !parts.TryAdd(part[..equals].ToUpperInvariant(), part[(equals + 1)..].ToUpperInvariant()))
            {
                Refuse("A recurrence rule is a list of NAME=value, parted by semicolons, each name once.", part);
                return null;
            }
        }

        var frequency = parts.GetValueOrDefault("FREQ", "");
        if (frequency is not ("DAILY" or "WEEKLY" or "MONTHLY" or "YEARLY"))
        {
            Refuse("FREQ is DAILY, WEEKLY, MONTHLY or YEARLY; trips do not recur within a day.", frequency.Length > 0 ? frequency : text);
            return null;
        }

        var pattern = $"FREQ={frequency}";
        int interval = 1;
        int? count = null;
        EventTime? until = null;
        foreach (var (name, value) in parts)
        {
            switch (name)
            {
                case "FREQ":
                    break;
                case "INTERVAL":
                    interval = Number(value, 1, 1000) ?? 0;
                    break;
                case "COUNT":
                    count = Number(value, 1, CalendarLimits.Instances);
                    if (count is null)
                    {
                        Refuse($"COUNT is a whole number from 1 to {CalendarLimits.Instances}.", value);
                    }

                    break;
                case "UNTIL":
                    until = ReadUntil(value, start);
                    if (until is null)
                    {
                        Refuse("UNTIL states YYYYMMDD or YYYYMMDDTHHMMSSZ.", value);
                    }

                    break;
                case "BYHOUR" or "BYMINUTE" or "BYSECOND":
                    var own = name switch { "BYHOUR" => start.Local.Hour, "BYMINUTE" => start.Local.Minute, _ => start.Local.Second };
                    if (start.IsDate || Number(value, 0, 59) != own)
                    {
                        Refuse($"{name} may only repeat the time of day of the start; one trip a rule.", value);
                    }

                    break;
                default:
                    if (RecurrencePart.Fault(name, value, frequency, parts.ContainsKey("BYWEEKNO")) is { } rule)
                    {
                        Refuse(rule, $"{name}={value}");
                    }

                    pattern += $";{name}={value}";
                    break;
            }
        }

        if (interval == 0)
        {
            Refuse("INTERVAL is a whole number from 1 to 1000.", parts["INTERVAL"]);
        }

        if (count is not null && until is not null)
        {
            Refuse("A recurrence rule ends by COUNT or by UNTIL, not by both.", text);
        }

        if (parts.ContainsKey("BYSETPOS") && !parts.Keys.Any(k => k.StartsWith("BY", StringComparison.Ordinal) && k != "BYSETPOS"))
        {
            Refuse("BYSETPOS needs another BY... part to choose from.", text);
        }

        if (frequency == "YEARLY" && parts.ContainsKey("BYMONTHDAY") && !parts.Keys.Any(k => k is "BYMONTH" or "BYYEARDAY" or "BYWEEKNO"))
        {
            // RFC 5545 expands this to the days of every month; the library stays in the month of the start unless the months are named.
            pattern += ";BYMONTH=1,2,3,4,5,6,7,8,9,10,11,12";
        }

        var stepsAYear = frequency switch { "DAILY" => 367, "WEEKLY" => 53, "MONTHLY" => 12, _ => 1 };
        return faults.Count > before
            ? null
            : new RecurrenceRule
            {
                Pattern = $"{pattern};INTERVAL={interval}",
                Count = count,
                Until = until,
                StepsInFortyYears = (stepsAYear * 40) + 1,
            };
    }

    /// <summary>Whether a start is still within the rule's end.</summary>
    internal bool Reaches(LocalDateTime local, DateTimeZone zone) => Until switch
    {
        null => true,
        { IsDate: true } date => local.Date <= date.Local.Date,
        { } end when end.Zone.Equals(zone) => local <= end.Local,
        { } end => local.InZoneLeniently(zone).ToInstant() <= end.Local.InZoneLeniently(end.Zone).ToInstant(),
    };

    /// <summary>Whether the end is a local time, which RFC 5545 forbids where the start has a zone; it is read in that zone.</summary>
    internal bool UntilIsLocal => Until is { IsDate: false } end && !end.Zone.Equals(DateTimeZone.Utc);

    private static EventTime? ReadUntil(string value, EventTime start) =>
        EventTimes.Date(value) is { } date ? new EventTime(date.AtMidnight(), start.Zone, IsDate: true)
        : value.EndsWith('Z') && EventTimes.Local(value[..^1]) is { } utc ? new EventTime(utc, DateTimeZone.Utc, IsDate: false)
        : EventTimes.Local(value) is { } local ? new EventTime(local, start.Zone, IsDate: false)
        : null;

    internal static int? Number(string text, int low, int high) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) && number >= low && number <= high
            ? number
            : null;
}
