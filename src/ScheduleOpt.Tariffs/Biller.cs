using NodaTime;
using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs;

/// <summary>Works out bills.</summary>
public static class Biller
{
    private const decimal PercentUnit = 100;

    /// <summary>The bill of a metered series on a rate plan.</summary>
    /// <param name="plan">A plan that <see cref="RatePlanCheck"/> finds in order.</param>
    /// <param name="series">Energy taken from the network.</param>
    /// <param name="readingDates">Dates at whose start the meter was read, in the plan's zone; a billing period runs from one to the next, and from the
    /// start of the series to the first and from the last to its end. None: calendar months.</param>
    /// <returns>One statement per billing period. A period that the series covers in part is that part, by the plan's proration.</returns>
    public static Bill Bill(RatePlan plan, MeteredSeries series, IReadOnlyList<LocalDate>? readingDates = null)
    {
        var layout = new PlanLayout(plan, series.Start, series.End);
        var statements = BillingPeriod.Cut(plan.Zone, series.Start, series.End, readingDates)
            .Select(period => Statement(layout, period, series))
            .ToArray();
        return new(plan.Id, plan.Currency, statements, Warnings(plan, series));
    }

    private static BillStatement Statement(PlanLayout layout, BillingPeriod period, MeteredSeries series)
    {
        var plan = layout.Plan;
        var use = UseSorter.Sort(layout, period, series);
        var lines = new List<BillLine>();
        lines.AddRange(plan.CustomerCharges.Select(c =>
            Fixed(plan, BillPart.CustomerCharge, c.Name, use.Units(c.Per), UnitName(c.Per), c.Amount)));
        lines.AddRange(layout.Charges.Where(c => c.Part == BillPart.EnergyCharge).SelectMany(c => c.Lines(use, plan.Rounding)));
        lines.AddRange(plan.DemandCharges.Select(d =>
            Fixed(plan, BillPart.DemandCharge, d.Name, HighestDemand.Of(layout, d, period, series), "kW", d.PricePerKw)));
        lines.AddRange(layout.Charges.Where(c => c.Part == BillPart.Adjustment).SelectMany(c => c.Lines(use, plan.Rounding)));
        AddMinimum(plan, use, lines);
        AddTaxes(plan, lines);

        var sum = lines.Sum(l => l.Amount);
        var total = plan.Rounding.Total(sum);
        var difference = total - sum;
        if (difference != 0)
        {
            lines.Add(new(BillPart.Rounding, "Rounding of the total", 1, "bill", difference, difference));
        }

        return new(period.Start, period.End, use.TotalDays, use.TotalKwh, lines, total);
    }

    private static void AddMinimum(RatePlan plan, PeriodUse use, List<BillLine> lines)
    {
        if (plan.MinimumBill is { } minimum)
        {
            var missing = plan.Rounding.Line(minimum.Amount * use.Units(minimum.Per))
                - lines.Where(l => minimum.Counts.Contains(l.Part)).Sum(l => l.Amount);
            if (missing > 0)
            {
                lines.Add(new(BillPart.MinimumBill, "Missing to the minimum bill", 1, "bill", missing, missing));
            }
        }
    }

    private static void AddTaxes(RatePlan plan, List<BillLine> lines)
    {
        foreach (var tax in plan.Taxes)
        {
            var on = lines
                .Where(l => l.Part == BillPart.Tax ? tax.Taxes.Contains(l.Description) : tax.Parts.Contains(l.Part))
                .Sum(l => l.Amount);
            lines.Add(Fixed(plan, BillPart.Tax, tax.Name, tax.Percent, "%", on / PercentUnit));
        }
    }

    private static BillLine Fixed(RatePlan plan, BillPart part, string name, decimal quantity, string unit, decimal price) =>
        new(part, name, quantity, unit, price, plan.Rounding.Line(quantity * price));

    private static string UnitName(ChargeUnit unit) => unit == ChargeUnit.Day ? "day" : "month";

    private static List<string> Warnings(RatePlan plan, MeteredSeries series)
    {
        var warnings = new List<string>();
        var (first, last) = (series.Start.InZone(plan.Zone).Date, (series.End - Duration.Epsilon).InZone(plan.Zone).Date);
        if (first < plan.EffectiveFrom || last > (plan.EffectiveUntil ?? LocalDate.MaxIsoValue))
        {
            warnings.Add(FormattableString.Invariant(
                $"The series runs from {first:uuuu-MM-dd} to {last:uuuu-MM-dd}, partly outside the dates on which the rate plan {plan.Id} is effective."));
        }

        foreach (var demand in plan.DemandCharges.Where(d => series.Interval > Duration.FromMinutes(d.AveragingMinutes)))
        {
            warnings.Add(FormattableString.Invariant(
                $"{demand.Name} is for averages over {demand.AveragingMinutes} minutes; the series has longer intervals, so the true demand may be higher."));
        }

        return warnings;
    }
}
