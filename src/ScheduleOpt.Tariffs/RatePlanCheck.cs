using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Choices;

namespace ScheduleOpt.Tariffs;

/// <summary>Finds what contradicts itself in a rate plan.</summary>
public static class RatePlanCheck
{
    /// <summary>The most combinations of choices that a plan may have.</summary>
    public const int MostCombinations = 200;

    /// <summary>The most combinations of choices times charges: each is checked under each.</summary>
    public const int MostCombinedCharges = 4000;

    private static readonly string[] CalendarFields = ["/options", "/seasons", "/dayTypes", "/holidays", "/periods", "/windows", "/defaultPeriod"];

    /// <summary>Every contradiction found, under every combination of choices; empty for a plan that can be billed. Names of seasons, day types, periods,
    /// calendars, options and charges are taken to exist: the reader of documents sees to that.</summary>
    public static IReadOnlyList<PlanFault> Faults(RatePlan plan)
    {
        var count = plan.Options.Aggregate(1L, (n, o) => Math.Min(n * Math.Max(1, o.Choices.Count), int.MaxValue));
        if (count > MostCombinations)
        {
            return [new("/options", $"There must be at most {MostCombinations} combinations of choices.", $"{count}")];
        }

        if (count * plan.Scopes.Count() > MostCombinedCharges && count > 1)
        {
            return [new("/options", $"Combinations of choices times charges must be at most {MostCombinedCharges}.", $"{count} x {plan.Scopes.Count()}")];
        }

        var faults = new List<PlanFault>();
        faults.AddRange(AllowanceCheck.Faults(plan));
        AddBillingSeasons(faults, plan);
        AddNames(faults, plan);
        if (faults.Count == 0)
        {
            foreach (var taken in PlanChoices.All(plan))
            {
                faults.AddRange(Made(plan.For(taken)).Except(faults));
            }
        }

        return faults;
    }

    /// <summary>Contradictions inside those parts of a plan that could be read, while others could not: so that one reading names as much as it can.</summary>
    /// <param name="plan">The plan as far as it was read.</param>
    /// <param name="isRead">Whether all under a path was read.</param>
    public static IReadOnlyList<PlanFault> FaultsOfParts(RatePlan plan, Func<string, bool> isRead)
    {
        var faults = new List<PlanFault>();
        if (CalendarFields.All(isRead) && plan.Options.Aggregate(1L, (n, o) => Math.Min(n * Math.Max(1, o.Choices.Count), int.MaxValue)) <= MostCombinations)
        {
            foreach (var made in PlanChoices.All(plan).Select(plan.For))
            {
                var found = new List<PlanFault>();
                AddCalendar(found, made.Calendar, "");
                faults.AddRange(found.Except(faults));
            }
        }

        var ladders = new List<PlanFault>();
        AddLadders(ladders, plan.EnergyCharges, "/energyCharges");
        AddLadders(ladders, plan.Adjustments, "/adjustments");
        AddLadders(ladders, plan.Export?.Prices ?? [], "/export/prices");
        AddDemandLadders(ladders, plan);
        faults.AddRange(ladders.Where(f => isRead(f.Path.Split("/blocks/")[0])));
        return faults;
    }

    private static List<PlanFault> Made(RatePlan plan)
    {
        var faults = new List<PlanFault>();
        AddCalendar(faults, plan.Calendar, "");
        foreach (var (calendar, i) in plan.Calendars.Values.Select((c, i) => (c, i)))
        {
            AddCalendar(faults, calendar, $"/calendars/{i}");
        }

        AddLadders(faults, plan.EnergyCharges, "/energyCharges");
        AddLadders(faults, plan.Adjustments, "/adjustments");
        AddLadders(faults, plan.Export?.Prices ?? [], "/export/prices");
        AddDemandLadders(faults, plan);
        foreach (var (scope, i) in plan.Scopes.Select((s, i) => (s, i)).Where(s => s.s.From > s.s.Until))
        {
            faults.Add(new(
                $"{scope.Place?.Path ?? $"/{i}"}/until", "A charge must not end before it begins.", FormattableString.Invariant($"{scope.From:uuuu-MM-dd} to {scope.Until:uuuu-MM-dd}")));
        }

        if (faults.Count == 0)
        {
            PriceCoverage.Add(faults, plan);
        }

        return faults;
    }

    private static void AddCalendar(List<PlanFault> faults, RateCalendar calendar, string path)
    {
        var days = CalendarCoverage.Days(calendar, path);
        faults.AddRange(days.Count > 0 ? days : CalendarCoverage.Hours(calendar, path));
    }

    private static void AddLadders(List<PlanFault> faults, IReadOnlyList<EnergyCharge> charges, string section)
    {
        for (var i = 0; i < charges.Count; i++)
        {
            AddLadder(faults, charges[i], charges[i].Place?.Path ?? $"{section}/{i}");
        }
    }

    private static void AddLadder(List<PlanFault> faults, EnergyCharge charge, string path)
    {
        for (var b = 0; b < charge.Blocks.Count; b++)
        {
            var block = charge.Blocks[b];
            var last = b == charge.Blocks.Count - 1;
            if (last == block.IsLimited)
            {
                faults.Add(new($"{path}/blocks/{b}", "Every block but the last must have a limit, and the last must have none.", $"block {b + 1}"));
            }
            else if (b > 0 && !last && !Rises(charge.Blocks[b - 1], block))
            {
                faults.Add(new($"{path}/blocks/{b}/{LimitName(block)}", "Limits of blocks must rise.", $"{Shown(block)} after {Shown(charge.Blocks[b - 1])}"));
            }
        }
    }

    // Kinds of limits can't be compared with each other; one of those that both have must rise, and none may fall.
    private static bool Rises(Block below, Block block)
    {
        (decimal?, decimal?)[] both = [(below.UpToKwh, block.UpToKwh), (below.UpToAllowance, block.UpToAllowance), (below.UpToKwhPerKw, block.UpToKwhPerKw)];
        var comparable = both.Where(l => l.Item1 is not null && l.Item2 is not null).ToArray();
        return comparable.All(l => l.Item2 >= l.Item1) && (comparable.Length == 0 || comparable.Any(l => l.Item2 > l.Item1) || below.UpToKwh is null != block.UpToKwh is null);
    }

    private static string LimitName(Block block) => block.UpToKwh is not null ? "upToKwh" : block.UpToAllowance is not null ? "upToAllowance" : "upToKwhPerKw";

    private static string Shown(Block block) => $"{block.UpToKwh ?? block.UpToAllowance ?? block.UpToKwhPerKw}";

    private static void AddDemandLadders(List<PlanFault> faults, RatePlan plan)
    {
        for (var i = 0; i < plan.DemandCharges.Count; i++)
        {
            var (charge, path) = (plan.DemandCharges[i], plan.DemandCharges[i].Place?.Path ?? $"/demandCharges/{i}");
            for (var b = 0; b < charge.Blocks.Count; b++)
            {
                var limit = charge.Blocks[b].UpToKw;
                if ((b == charge.Blocks.Count - 1) != limit is null)
                {
                    faults.Add(new($"{path}/blocks/{b}", "Every block but the last must have upToKw, and the last must have none.", $"block {b + 1}"));
                }
                else if (b > 0 && limit <= charge.Blocks[b - 1].UpToKw)
                {
                    faults.Add(new($"{path}/blocks/{b}/upToKw", "Limits of blocks must rise.", $"{limit} after {charge.Blocks[b - 1].UpToKw}"));
                }
            }
        }
    }

    private static void AddBillingSeasons(List<PlanFault> faults, RatePlan plan)
    {
        for (var month = 1; plan.BillingSeasons.Count > 0 && month <= 12; month++)
        {
            var holders = plan.BillingSeasons.Count(s => s.Months.Contains(month));
            if (holders != 1)
            {
                faults.Add(new("/billingSeasons", "Each month must lie in exactly one billing season.", $"month {month} lies in {holders}"));
            }
        }
    }

    private static void AddNames(List<PlanFault> faults, RatePlan plan)
    {
        foreach (var twice in plan.DemandCharges.GroupBy(d => d.Name).Where(g => g.Count() > 1))
        {
            faults.Add(new("/demandCharges", "Each demand charge must have a name of its own: ratchets and limits refer to it, and its peaks are remembered by it.", twice.Key));
        }
    }
}
