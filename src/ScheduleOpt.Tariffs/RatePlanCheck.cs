using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs;

/// <summary>Finds what contradicts itself in a rate plan.</summary>
public static class RatePlanCheck
{
    /// <summary>Every contradiction found; empty for a plan that can be billed. Names of seasons, day types, periods and taxes are taken to exist: the
    /// reader of documents sees to that.</summary>
    public static IReadOnlyList<PlanFault> Faults(RatePlan plan)
    {
        var faults = new List<PlanFault>(CalendarCoverage.Days(plan.Calendar));
        if (faults.Count == 0)
        {
            faults.AddRange(CalendarCoverage.Hours(plan.Calendar));
        }

        for (var i = 0; i < plan.EnergyCharges.Count; i++)
        {
            AddLadder(faults, plan.EnergyCharges[i], $"/energyCharges/{i}");
        }

        for (var i = 0; i < plan.Adjustments.Count; i++)
        {
            AddLadder(faults, plan.Adjustments[i], $"/adjustments/{i}");
        }

        if (faults.Count == 0)
        {
            AddPrices(faults, plan);
        }

        return faults;
    }

    private static void AddLadder(List<PlanFault> faults, EnergyCharge charge, string path)
    {
        for (var b = 0; b < charge.Blocks.Count; b++)
        {
            var limit = charge.Blocks[b].UpToKwh;
            var last = b == charge.Blocks.Count - 1;
            if (last != limit is null)
            {
                faults.Add(new($"{path}/blocks/{b}", "Every block but the last must have upToKwh, and the last must have none.", $"block {b + 1}"));
            }
            else if (b > 0 && !last && charge.Blocks[b - 1].UpToKwh is { } below && limit <= below)
            {
                faults.Add(new($"{path}/blocks/{b}/upToKwh", "Limits of blocks must rise.", $"{limit} after {below}"));
            }
        }

        if (charge.From > charge.Until)
        {
            faults.Add(new($"{path}/until", "A charge must not end before it begins.", $"{charge.From:uuuu-MM-dd} to {charge.Until:uuuu-MM-dd}"));
        }
    }

    /// <summary>A period that never holds, or a charge that covers nothing, is a slip of the pen.</summary>
    private static void AddUnused(List<PlanFault> faults, RatePlan plan, HashSet<(int Season, int Period)> cells)
    {
        for (var p = 0; p < plan.Calendar.Periods.Count; p++)
        {
            if (!cells.Any(c => c.Period == p))
            {
                faults.Add(new($"/periods/{p}", "Each period must hold at some time: no window gives it, or others come before.", plan.Calendar.Periods[p]));
            }
        }

        AddUncovering(faults, plan, plan.EnergyCharges, "/energyCharges", cells);
        AddUncovering(faults, plan, plan.Adjustments, "/adjustments", cells);
    }

    private static void AddUncovering(
        List<PlanFault> faults, RatePlan plan, IReadOnlyList<EnergyCharge> charges, string path, HashSet<(int Season, int Period)> cells)
    {
        for (var i = 0; i < charges.Count; i++)
        {
            var charge = charges[i];
            if (!cells.Any(c => charge.CoversSeason(plan.Calendar.Seasons[c.Season].Name) && charge.CoversPeriod(plan.Calendar.Periods[c.Period])))
            {
                faults.Add(new($"{path}/{i}", "A charge must cover a season and period that occur together.", charge.Name));
            }
        }
    }

    /// <summary>Each season and period that occurs needs exactly one energy charge on each date.</summary>
    private static void AddPrices(List<PlanFault> faults, RatePlan plan)
    {
        LocalDate?[] slices = [null, .. plan.EnergyCharges
            .SelectMany(c => new[] { c.From, c.Until?.PlusDays(1) }).OfType<LocalDate>().Distinct().Order().Cast<LocalDate?>()];
        var cells = CalendarCoverage.Cells(plan.Calendar);
        AddUnused(faults, plan, cells);
        foreach (var (season, period) in cells.Order())
        {
            var (seasonName, periodName) = (plan.Calendar.Seasons[season].Name, plan.Calendar.Periods[period]);
            var covering = plan.EnergyCharges.Where(c => c.CoversSeason(seasonName) && c.CoversPeriod(periodName)).ToArray();
            foreach (var slice in slices)
            {
                var count = covering.Count(c => c.CoversSliceFrom(slice));
                if (count != 1)
                {
                    faults.Add(new(
                        "/energyCharges",
                        "Each season and period must have exactly one energy charge on each date; what comes on top is an adjustment.",
                        $"season {seasonName}, period {periodName}{(slice is { } s ? $", from {s:uuuu-MM-dd}" : "")}: {count}"));
                    break;
                }
            }
        }
    }
}
