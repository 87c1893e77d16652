using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Choices;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads seasons, day types, holidays, periods and clock windows.</summary>
internal static class CalendarReader
{
    private static readonly Season AllYear = new("all year", [new(new(1, 1), new(12, 31))]);
    private static readonly DayType EveryDay = new("every day", [.. Weekdays.ByName.Values]);
    private const string AllHours = "all hours";

    private static readonly Dictionary<string, bool> Clocks = new() { ["legal"] = false, ["standard"] = true };

    /// <summary>The plan's own calendar.</summary>
    public static RateCalendar Read(Field root, IReadOnlyList<HouseholdOption> options) => Read(root, Zone(root["timeZone"]), null, options);

    /// <summary>The further calendars: what one leaves out is that of the plan's own.</summary>
    public static IReadOnlyDictionary<string, RateCalendar> Others(Field field, RateCalendar own, IReadOnlyList<HouseholdOption> options)
    {
        var calendars = new Dictionary<string, RateCalendar>();
        foreach (var element in field.List(1, 10, required: false))
        {
            if (!element.IsObject())
            {
                continue;
            }

            var name = element["name"].Text(40);
            if (name.Length > 0 && !calendars.TryAdd(name, Read(element, own.Zone, own, options)))
            {
                element["name"].Fault("Each name must be given once.", name);
            }

            element.RefuseOthers();
        }

        return calendars;
    }

    private static RateCalendar Read(Field root, DateTimeZone zone, RateCalendar? own, IReadOnlyList<HouseholdOption> options)
    {
        var seasons = root["seasons"].List(1, 12, required: false).Select(SeasonOf).ToArray();
        var dayTypes = root["dayTypes"].List(1, 10, required: false).Select(DayTypeOf).ToArray();
        var periods = root["periods"].List(1, 12, required: own is not null).Select(p => p.Text(40)).ToArray();
        Unique(root["seasons"], [.. seasons.Select(s => s.Name)]);
        Unique(root["dayTypes"], [.. dayTypes.Select(t => t.Name)]);
        Unique(root["periods"], periods);
        IReadOnlyList<Season> allSeasons = seasons.Length > 0 ? seasons : own?.Seasons ?? [AllYear];
        IReadOnlyList<DayType> allDayTypes = dayTypes.Length > 0 ? dayTypes : own?.DayTypes ?? [EveryDay];

        string[] seasonNames = [.. allSeasons.Select(s => s.Name)], dayTypeNames = [.. allDayTypes.Select(t => t.Name)];
        // A plan that tells days apart says what holidays are, if only that there are none.
        IReadOnlyList<Holiday> holidays = root["holidays"].Exists || own is null || root["dayTypes"].Exists
            ? [.. root["holidays"].List(0, 60, required: root["dayTypes"].Exists).Select(h => HolidayReader.Read(h, dayTypeNames))]
            : own.Holidays;
        var windows = root["windows"].List(1, 200, required: false).Select(w => WindowOf(w, periods, seasonNames, dayTypeNames, options)).ToArray();
        var defaultPeriod = DefaultPeriod(root["defaultPeriod"], periods, windows.Length > 0);
        var standard = root["clock"].OneOf(Clocks, false, required: false);
        return new(zone, allSeasons, allDayTypes, holidays, periods.Length > 0 ? periods : [AllHours], windows, defaultPeriod, standard);
    }

    private static DateTimeZone Zone(Field field)
    {
        var name = field.Text(60);
        var zone = name.Length > 0 ? DateTimeZoneProviders.Tzdb.GetZoneOrNull(name) : null;
        if (name.Length > 0 && zone is null)
        {
            field.Fault("It must be an IANA time zone such as America/Chicago.");
        }

        return zone ?? DateTimeZone.Utc;
    }

    private static Season SeasonOf(Field field)
    {
        field.IsObject();
        var season = new Season(field["name"].Text(40), [.. field["ranges"].List(1, 12).Select(r =>
        {
            r.IsObject();
            var range = new SeasonRange(r["from"].MonthAndDay(), r["to"].MonthAndDay());
            r.RefuseOthers();
            return range;
        })]);
        field.RefuseOthers();
        return season;
    }

    private static DayType DayTypeOf(Field field)
    {
        field.IsObject();
        var type = new DayType(field["name"].Text(40), [.. field["days"].List(0, 7).Select(d => d.OneOf(Weekdays.ByName))]);
        field.RefuseOthers();
        return type;
    }

    private static PeriodWindow WindowOf(
        Field field, string[] periods, string[] seasons, string[] dayTypes, IReadOnlyList<HouseholdOption> options)
    {
        field.IsObject();
        var period = field["period"].Text(40);
        if (period.Length > 0 && !periods.Contains(period))
        {
            field["period"].Fault($"It must name one of the periods: {string.Join(", ", periods)}.");
        }

        var window = new PeriodWindow(
            period,
            field["seasons"].Names(seasons, "seasons"),
            field["dayTypes"].Names(dayTypes, "dayTypes"),
            field["from"].ClockMinute(mayBeMidnightAtEnd: false),
            field["to"].ClockMinute(mayBeMidnightAtEnd: true))
        {
            When = ConditionReader.Read(field["when"], options),
        };
        if (window.FromMinute == window.ToMinute && field["from"].Exists && field["to"].Exists)
        {
            field["to"].Fault("A window must not end when it begins; the whole day is 00:00 to 24:00.");
        }

        field.RefuseOthers();
        return window;
    }

    private static string? DefaultPeriod(Field field, string[] periods, bool hasWindows)
    {
        if (field.Exists)
        {
            var name = field.Text(40);
            if (name.Length > 0 && !periods.Contains(name))
            {
                field.Fault($"It must name one of the periods: {string.Join(", ", periods)}.");
            }

            return name;
        }

        // One period and no window: it holds always.
        return hasWindows ? null : periods.Length > 0 ? periods[0] : AllHours;
    }

    private static void Unique(Field field, string[] names)
    {
        foreach (var twice in names.Where(n => n.Length > 0).GroupBy(n => n).Where(g => g.Count() > 1))
        {
            field.Fault("Each name must be given once.", twice.Key);
        }
    }
}
