using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>The bills of two meters of one household as one: every line of both, each meter's own customer charge included.</summary>
internal static class TwoMeters
{
    /// <summary>Puts them together; billing periods that run from the same instant to the same instant become one statement.</summary>
    /// <param name="house">The house's bill.</param>
    /// <param name="car">The car's; its plan names the bill.</param>
    public static Bill Bill(Bill house, Bill car)
    {
        var statements = new List<BillStatement>(house.Periods);
        foreach (var own in car.Periods)
        {
            var same = statements.FindIndex(s => s.Start == own.Start && s.End == own.End);
            if (same < 0)
            {
                statements.Add(own);
                continue;
            }

            var other = statements[same];
            statements[same] = other with
            {
                EnergyKwh = other.EnergyKwh + own.EnergyKwh, Lines = [.. other.Lines, .. own.Lines], Total = other.Total + own.Total,
            };
        }

        return new Bill(car.RatePlanId, car.Currency, statements, [.. house.Warnings.Concat(car.Warnings).Distinct()]);
    }
}
