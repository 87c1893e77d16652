using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Reads events and the rebates for them.</summary>
internal static class EventReader
{
    private const decimal MostKwh = 1_000_000;

    public static IReadOnlyList<EventDefinition> Events(Field field, ScopeReader scopes)
    {
        var events = new List<EventDefinition>();
        foreach (var element in field.List(1, 10, required: false))
        {
            element.IsObject();
            var name = element["name"].Text(40);
            if (events.Any(e => e.Name == name))
            {
                element["name"].Fault("Each name must be given once.");
            }

            var calendar = scopes.CalendarOf(element["calendar"], out var calendarName);
            var period = element["period"];
            var text = period.Exists ? period.Text(40) : null;
            if (text is { Length: > 0 } && !calendar.Periods.Contains(text))
            {
                period.Fault($"It must name one of the periods: {string.Join(", ", calendar.Periods)}.");
            }

            events.Add(new(name)
            {
                Calendar = calendarName,
                Period = text,
                Allowed = Allowed(element["allowed"], calendar),
                Limits = Limits(element["limits"]),
                Notice = element["notice"].Text(200, ""),
                Past = [.. element["past"].List(1, 500, required: false).Select(Called)],
                Place = element.Place,
            });
            element.RefuseOthers();
        }

        return events;
    }

    public static IReadOnlyList<Rebate> Rebates(Field field, ScopeReader scopes, IReadOnlyList<EventDefinition> events) =>
    [
        .. field.List(1, 10, required: false).Select(element =>
        {
            element.IsObject();
            var name = element["event"].Text(40);
            if (name.Length > 0 && events.All(e => e.Name != name))
            {
                element["event"].Fault($"It must name one of the events: {string.Join(", ", events.Select(e => e.Name).DefaultIfEmpty("none"))}.");
            }

            var baseline = element["baseline"];
            baseline.IsObject();
            var highest = baseline["highest"];
            var rebate = new Rebate(
                element["name"].Text(80),
                name,
                element["pricePerKwh"].Number(0, 100, "per kWh"),
                baseline["days"].Whole(1, 30, "days"),
                highest.Exists ? highest.Whole(1, 30, "days") : null)
            {
                When = ConditionReader.Read(element["when"], scopes.Options),
                Place = element.Place,
            };
            if (rebate.HighestDays > rebate.BaselineDays)
            {
                highest.Fault("It must not be more than days.");
            }

            baseline.RefuseOthers();
            element.RefuseOthers();
            return rebate;
        }),
    ];

    private static EventHours? Allowed(Field field, Tariffs.Calendars.RateCalendar calendar)
    {
        if (!field.Exists || !field.IsObject())
        {
            return null;
        }

        var hours = new EventHours(
            field["seasons"].Names([.. calendar.Seasons.Select(s => s.Name)], "seasons"),
            field["dayTypes"].Names([.. calendar.DayTypes.Select(t => t.Name)], "dayTypes"),
            [.. field["windows"].List(1, 10, required: false).Select(w =>
            {
                w.IsObject();
                var window = (w["from"].ClockMinute(mayBeMidnightAtEnd: false), w["to"].ClockMinute(mayBeMidnightAtEnd: true));
                w.RefuseOthers();
                return window;
            })],
            field["notOnHolidays"].YesOrNo(),
            [.. field["notOn"].List(1, 60, required: false).Select(d => d.MonthAndDay())]);
        field.RefuseOthers();
        return hours;
    }

    private static EventLimits Limits(Field field)
    {
        if (!field.Exists || !field.IsObject())
        {
            return new();
        }

        Field event_ = field["hoursPerEvent"], day = field["eventsPerDay"], hours = field["hoursPerYear"], year = field["eventsPerYear"];
        var limits = new EventLimits(
            event_.Exists ? event_.Number(0.25m, 24, "h") : null,
            day.Exists ? day.Whole(1, 10, "") : null,
            hours.Exists ? hours.Number(0.25m, 8784, "h") : null,
            year.Exists ? year.Whole(1, 366, "") : null);
        field.RefuseOthers();
        return limits;
    }

    private static CalledEvent Called(Field field)
    {
        field.IsObject();
        Field baseline = field["baselineKwh"], adjustment = field["baselineAdjustmentKwh"];
        var called = new CalledEvent(
            field["from"].DateAndTime(),
            field["to"].DateAndTime(),
            baseline.Exists ? baseline.Number(0, MostKwh, "kWh") : null,
            adjustment.Exists ? adjustment.Number(-MostKwh, MostKwh, "kWh") : 0);
        if (called.To <= called.From && field["from"].Exists && field["to"].Exists)
        {
            field["to"].Fault("An event must end after it begins.");
        }
        else if (called.To > called.From.PlusDays(2))
        {
            field["to"].Fault("An event must not last longer than two days.");
        }

        field.RefuseOthers();
        return called;
    }
}
