using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>What a calendar says of an instant.</summary>
internal sealed record Moment(LocalDate Date, string Season, string Period);

/// <summary>The plan's own calendar or a further one.</summary>
internal sealed class PlanCalendar
{
    private readonly List<JsonObject> seasons;
    private readonly List<JsonObject> dayTypes;
    private readonly List<JsonObject> windows;
    private readonly Dictionary<LocalDate, string> holidays;
    private readonly string? defaultPeriod;
    private readonly List<(Instant From, Instant To, string Period)> events = [];

    /// <param name="own">The plan, or one of its further calendars.</param>
    /// <param name="plan">The plan: "Seasons, day types and holidays that one leaves out are the plan's own."</param>
    /// <param name="bill">Choices, events and zone.</param>
    public PlanCalendar(JsonObject own, JsonObject plan, Context bill)
    {
        Clock = own.Text("clock") == "standard" ? bill.Standard : bill.Legal;
        seasons = [.. (own["seasons"] is null ? plan : own).List("seasons")];
        dayTypes = [.. (own["dayTypes"] is null ? plan : own).List("dayTypes")];
        holidays = Holidays.Observed([.. (own["holidays"] is null ? plan : own).List("holidays")], bill.FirstDate.Year, bill.LastDate.Year);
        windows = [.. own.List("windows").Where(bill.Holds)];
        defaultPeriod = own.Text("defaultPeriod") ?? own.Names("periods")?[0];
        var name = ReferenceEquals(own, plan) ? null : own.Text("name");
        foreach (var definition in plan.List("events").Where(item => item.Text("calendar") == name && item["period"] is not null))
        {
            foreach (var called in bill.Events.Where(item => item.Name == definition.Text("name")))
            {
                events.Add((bill.Legal.First(called.From), bill.Legal.First(called.To), definition.Text("period")!));
            }
        }
    }

    public Clock Clock { get; }

    public IEnumerable<int> WindowMinutes => windows.SelectMany(window => new[] { window.Minute("from"), window.Minute("to") });

    public Moment At(Instant instant)
    {
        var local = Clock.At(instant);
        var (date, minute) = (local.Date, local.Hour * 60 + local.Minute);
        var (period, day) = OnTheClock(date, minute);

        // "an event's `period` while an event of that calendar lasts (the definition listed first wins)";
        // "Energy during an event keeps the season it would have had."
        foreach (var called in events)
        {
            if (called.From <= instant && instant < called.To)
            {
                period = called.Period;
                break;
            }
        }

        return new(date, SeasonOf(day), period);
    }

    /// <summary>"the first window that holds; otherwise `defaultPeriod`", with the day whose season counts.</summary>
    private (string Period, LocalDate Day) OnTheClock(LocalDate date, int minute)
    {
        foreach (var window in windows)
        {
            int from = window.Minute("from"), to = window.Minute("to");
            if (from < to ? from <= minute && minute < to && HoldsOn(window, date) : minute >= from && HoldsOn(window, date))
            {
                return (window.Text("period")!, date);
            }

            // "A window over midnight holds by the season and day type of the day on which it starts, and its use after midnight has that day's season."
            if (to < from && minute < to && HoldsOn(window, date.PlusDays(-1)))
            {
                return (window.Text("period")!, date.PlusDays(-1));
            }
        }

        return (defaultPeriod ?? "", date);
    }

    private bool HoldsOn(JsonObject window, LocalDate day) =>
        (window.Names("seasons")?.Contains(SeasonOf(day)) ?? true) && (window.Names("dayTypes")?.Contains(DayTypeOf(day)) ?? true);

    /// <summary>"A day is in the season that its month and day lie in".</summary>
    public string SeasonOf(LocalDate day)
    {
        var key = (day.Month, day.Day);
        foreach (var season in seasons)
        {
            foreach (var range in season.List("ranges"))
            {
                AnnualDate first = range.MonthAndDay("from"), last = range.MonthAndDay("to");
                (int, int) from = (first.Month, first.Day), to = (last.Month, last.Day);
                var holds = from.CompareTo(to) <= 0
                    ? key.CompareTo(from) >= 0 && key.CompareTo(to) <= 0
                    : key.CompareTo(from) >= 0 || key.CompareTo(to) <= 0;
                if (holds)
                {
                    return season.Text("name")!;
                }
            }
        }

        return "";
    }

    /// <summary>"has the day type of its weekday, or of its observed holiday".</summary>
    public string DayTypeOf(LocalDate day) => holidays.TryGetValue(day, out var type)
        ? type
        : dayTypes.FirstOrDefault(item => item.Names("days")!.Any(name => Holidays.Weekday(name) == day.DayOfWeek))?.Text("name") ?? "";

    public bool IsHoliday(LocalDate day) => holidays.ContainsKey(day);
}
