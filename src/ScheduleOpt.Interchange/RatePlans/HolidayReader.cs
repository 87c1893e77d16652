using ScheduleOpt.Tariffs.Calendars;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads one holiday.</summary>
internal static class HolidayReader
{
    private static readonly Dictionary<string, ObservedDay> SaturdayMoves = new()
    {
        ["none"] = ObservedDay.Same,
        ["friday"] = ObservedDay.Friday,
        ["monday"] = ObservedDay.Monday,
        ["nextFreeWeekday"] = ObservedDay.NextFreeWeekday,
    };

    private static readonly Dictionary<string, ObservedDay> SundayMoves = new()
    {
        ["none"] = ObservedDay.Same,
        ["monday"] = ObservedDay.Monday,
        ["nextFreeWeekday"] = ObservedDay.NextFreeWeekday,
    };

    // What stands in for a rule that is not known: its fields can't be judged.
    private static readonly Func<Field, HolidayRule> None = _ => new ListedDatesRule([]);

    private static readonly Dictionary<string, Func<Field, HolidayRule>> Rules = new()
    {
        ["fixedDate"] = f => new FixedDateRule(f["date"].MonthAndDay()),
        ["nthWeekday"] = f => new NthWeekdayRule(
            f["nth"].Whole(1, 5, ""), f["weekday"].OneOf(Weekdays.ByName), f["month"].Whole(1, 12, ""), Offset(f["offsetDays"])),
        ["weekdayOnOrBefore"] = f => new WeekdayOnOrBeforeRule(f["weekday"].OneOf(Weekdays.ByName), f["date"].MonthAndDay()),
        ["easter"] = f => new EasterRule(f["offsetDays"].Whole(-100, 100, "days")),
        ["dates"] = f => new ListedDatesRule([.. f["dates"].List(1, 100).Select(d => d.Date())]),
    };

    public static Holiday Read(Field field, string[] dayTypes)
    {
        field.IsObject();
        var name = field["name"].Text(60);
        var kind = field["rule"].OneOf(Rules, None, required: true);
        var rule = kind(field);
        var dayType = field["dayType"].Text(40);
        if (dayType.Length > 0 && !dayTypes.Contains(dayType))
        {
            field["dayType"].Fault($"It must name one of the dayTypes: {string.Join(", ", dayTypes)}.");
        }

        var holiday = new Holiday(
            name,
            rule,
            dayType,
            field["saturdayMovesTo"].OneOf(SaturdayMoves, ObservedDay.Same, required: false),
            field["sundayMovesTo"].OneOf(SundayMoves, ObservedDay.Same, required: false));
        if (rule is not ListedDatesRule { Dates.Count: 0 })
        {
            field.RefuseOthers();
        }

        return holiday;
    }

    private static int Offset(Field field) => field.Exists ? field.Whole(-30, 30, "days") : 0;
}
