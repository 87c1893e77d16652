using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using NodaTime;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>noCharging</c> and <c>currentLimits</c>: hours by the household's clock.</summary>
internal static partial class DailyHoursReader
{
    private const int Most = 50;

    private static readonly (string, IsoDayOfWeek)[] Days =
    [
        ("monday", IsoDayOfWeek.Monday), ("tuesday", IsoDayOfWeek.Tuesday), ("wednesday", IsoDayOfWeek.Wednesday), ("thursday", IsoDayOfWeek.Thursday),
        ("friday", IsoDayOfWeek.Friday), ("saturday", IsoDayOfWeek.Saturday), ("sunday", IsoDayOfWeek.Sunday),
    ];

    // Nothing to nothing is allowed: less than the car's minimum means that it does not charge.
    private static readonly Limits Amperes = new(0, 125, "A");

    /// <summary>Reads hours without charging.</summary>
    public static IReadOnlyList<DailyHours> NoCharging(JsonField? field) =>
        [.. (field?.Items(0, Most, "items") ?? []).Select(item => item.Members("from", "until", "days") is { } m ? Hours(m) : null).OfType<DailyHours>()];

    /// <summary>Reads limits of the current by hours.</summary>
    public static IReadOnlyList<DailyCurrentLimit> CurrentLimits(JsonField? field)
    {
        var limits = new List<DailyCurrentLimit>();
        foreach (var item in field?.Items(0, Most, "items") ?? [])
        {
            if (item.Members("from", "until", "days", "currentA") is { } members
                && (Hours(members), members.Number("currentA", Amperes)) is ({ } hours, { } most))
            {
                limits.Add(new(hours, most));
            }
        }

        return limits;
    }

    private static DailyHours? Hours(JsonMembers members)
    {
        var from = Minute(members.Required("from", FromRule), FromRule, 0, 1439);
        var until = Minute(members.Required("until", UntilRule), UntilRule, 0, 1440);
        var days = members.Optional("days") is { } field ? DaysOf(field) : null;
        if (from is not { } begin || until is not { } end)
        {
            return null;
        }

        if (begin == end)
        {
            members.Optional("until")!.Value.Fault("Must not be the same as from; for the whole day give 00:00 and 24:00.");
            return null;
        }

        // Midnight is the end of a day, not its beginning.
        return new(begin, end == 0 ? 1440 : end, days);
    }

    private const string FromRule = "Must be a time of day such as \"17:00\", from 00:00 to 23:59.";
    private const string UntilRule = "Must be a time of day such as \"21:00\", from 00:00 to 24:00.";

    private static int? Minute(JsonField? maybe, string rule, int least, int most)
    {
        if (maybe is not { } field)
        {
            return null;
        }

        if (field.Element.ValueKind == JsonValueKind.String && Clock().Match(field.Element.GetString()!) is { Success: true } match)
        {
            var minute = (60 * int.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture)) + int.Parse(match.Groups[2].ValueSpan, CultureInfo.InvariantCulture);
            if (minute >= least && minute <= most)
            {
                return minute;
            }
        }

        field.Fault(rule);
        return null;
    }

    private static HashSet<IsoDayOfWeek>? DaysOf(JsonField field)
    {
        if (field.Items(1, 7, "days") is not { } items)
        {
            return null;
        }

        var days = new HashSet<IsoDayOfWeek>();
        foreach (var item in items)
        {
            if (item.Word(Days) is { } day && !days.Add(day))
            {
                item.Fault("Each day may be given once.");
            }
        }

        return days;
    }

    [GeneratedRegex(@"\A([01]\d|2[0-4]):([0-5]\d)\z", RegexOptions.CultureInvariant)]
    private static partial Regex Clock();
}
