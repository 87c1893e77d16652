using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>One calendar of a plan laid out over real dates. Use falls into cells: slice of dates x season x period.</summary>
internal sealed class CalendarLayout
{
    private readonly LocalDate[] cuts;

    public CalendarLayout(int index, RateCalendar calendar, IEnumerable<Scope> scopes, Instant from, Instant until, EventSpan[] events)
    {
        (Index, Calendar) = (index, calendar);
        cuts = [.. scopes.SelectMany(c => new[] { c.From, c.Until?.PlusDays(1) }).OfType<LocalDate>().Distinct().Order()];
        Walk = new(calendar, from, until, cuts, events);
    }

    /// <summary>Its place among the plan's calendars.</summary>
    public int Index { get; }

    public RateCalendar Calendar { get; }

    public CalendarWalk Walk { get; }

    public int Seasons => Calendar.Seasons.Count;

    public int Periods => Calendar.Periods.Count;

    public int Cells => Walk.Slices * Seasons * Periods;

    public int DayCells => Walk.Slices * Seasons;

    public int CellOf(CalendarSpan span) => (((span.Slice * Seasons) + span.Season) * Periods) + span.Period;

    public int DayCellOf(LocalDate date) => (Walk.SliceOf(date) * Seasons) + Walk.SeasonOf(date);

    public int PeriodOf(int cell) => cell % Periods;

    /// <summary>Whether slice and season of a cell of days are covered.</summary>
    public bool CoversDays(Scope scope, int dayCell)
    {
        var slice = dayCell / Seasons;
        return scope.CoversSliceFrom(slice == 0 ? null : cuts[slice - 1]) && scope.CoversSeason(Calendar.Seasons[dayCell % Seasons].Name);
    }

    public bool CoversPeriod(Scope scope, int cell) => scope.CoversPeriod(Calendar.Periods[PeriodOf(cell)]);
}
