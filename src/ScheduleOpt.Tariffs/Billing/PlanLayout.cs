using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>A rate plan laid out over real dates. Use falls into cells: slice of dates x season x period.</summary>
internal sealed class PlanLayout
{
    private readonly LocalDate[] cuts;

    public PlanLayout(RatePlan plan, Instant from, Instant until)
    {
        Plan = plan;
        cuts = [.. plan.EnergyCharges.Concat(plan.Adjustments)
            .SelectMany(c => new[] { c.From, c.Until?.PlusDays(1) })
            .OfType<LocalDate>().Distinct().Order()];
        Walk = new(plan.Calendar, from, until, cuts);
        Charges =
        [
            .. plan.EnergyCharges.Select(c => new ChargeLayout(this, c, BillPart.EnergyCharge)),
            .. plan.Adjustments.Select(c => new ChargeLayout(this, c, BillPart.Adjustment)),
        ];
    }

    public RatePlan Plan { get; }

    public CalendarWalk Walk { get; }

    /// <summary>Energy charges, then adjustments, in the plan's order.</summary>
    public ChargeLayout[] Charges { get; }

    public int Seasons => Plan.Calendar.Seasons.Count;

    public int Periods => Plan.Calendar.Periods.Count;

    public int Cells => Walk.Slices * Seasons * Periods;

    public int CellOf(int slice, int season, int period) => (((slice * Seasons) + season) * Periods) + period;

    public int PeriodOf(int cell) => cell % Periods;

    /// <summary>Index of slice and season together.</summary>
    public int DayCellOf(int cell) => cell / Periods;

    public bool Covers(EnergyCharge charge, int cell)
    {
        var slice = cell / (Seasons * Periods);
        return charge.CoversSliceFrom(slice == 0 ? null : cuts[slice - 1])
            && charge.CoversSeason(Plan.Calendar.Seasons[DayCellOf(cell) % Seasons].Name)
            && charge.CoversPeriod(Plan.Calendar.Periods[PeriodOf(cell)]);
    }
}
