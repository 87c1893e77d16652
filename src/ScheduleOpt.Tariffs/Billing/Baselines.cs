using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Works out what a household would have used during an event.</summary>
internal sealed class Baselines
{
    /// <summary>How far back a baseline looks. [days]</summary>
    public const int DaysBack = 60;

    private const int KwhDecimals = 6;
    private readonly PlanLayout layout;
    private readonly MeteredSeries series;
    private readonly MeteredSeries? before;

    /// <param name="layout">The plan's layout.</param>
    /// <param name="series">Metered import.</param>
    /// <param name="before">Import of the days before it; ignored where it does not end where the series begins.</param>
    public Baselines(PlanLayout layout, MeteredSeries series, MeteredSeries? before)
    {
        (this.layout, this.series) = (layout, series);
        this.before = before is not null && before.End == series.Start ? before : null;
    }

    /// <summary>Import between two instants. [kWh]</summary>
    public decimal Use(Instant from, Instant until)
    {
        long start = from.ToUnixTimeSeconds(), end = until.ToUnixTimeSeconds();
        return PeriodUse.Kwh(UseSorter.Energy(series, start, end) + (before is null ? 0 : UseSorter.Energy(before, start, end)));
    }

    /// <summary>The baseline of an event; none where no day qualifies. [kWh]</summary>
    public decimal? Of(Rebate rebate, CalledEvent called)
    {
        if (called.BaselineKwh is { } stated)
        {
            return stated + called.BaselineAdjustmentKwh;
        }

        var definition = layout.Plan.Events.First(e => e.Name == rebate.Event);
        var calendar = definition.Calendar is { } name ? layout.Plan.Calendars[name] : layout.Plan.Calendar;
        var date = called.From.Date;
        var holidays = calendar.ObservedHolidays(date.PlusDays(-DaysBack), date).ToDictionary(h => h.Date, h => h.Holiday);
        int TypeOn(LocalDate day) => holidays.TryGetValue(day, out var h) ? calendar.DayTypeNamed(h.DayType) : calendar.DayTypeOf(day.DayOfWeek);

        var uses = new List<decimal>();
        for (var back = 1; back <= DaysBack && uses.Count < rebate.BaselineDays; back++)
        {
            var day = date.PlusDays(-back);
            if (TypeOn(day) == TypeOn(date) && !holidays.ContainsKey(day) && !HasEvent(rebate.Event, day)
                && UseOf(called.From.PlusDays(-back), called.To.PlusDays(-back)) is { } use)
            {
                uses.Add(use);
            }
        }

        if (uses.Count == 0)
        {
            return null;
        }

        var kept = uses.OrderDescending().Take(rebate.HighestDays ?? uses.Count).ToArray();
        return decimal.Round(kept.Sum() / kept.Length, KwhDecimals, MidpointRounding.AwayFromZero) + called.BaselineAdjustmentKwh;
    }

    private bool HasEvent(string name, LocalDate day) => layout.Events[name].Any(e => e.From.Date <= day && e.To.PlusSeconds(-1).Date >= day);

    private decimal? UseOf(LocalDateTime from, LocalDateTime to)
    {
        var zone = layout.Plan.Zone;
        Instant start = EventClock.At(from, zone), end = EventClock.At(to, zone);
        return start >= (before?.Start ?? series.Start) && end <= series.End ? Use(start, end) : null;
    }
}
