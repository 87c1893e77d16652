using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Choices;

/// <summary>Makes a plan of which nothing depends on a choice any more.</summary>
internal static class PlanChoices
{
    /// <summary>The choice for each option: the one given, or the default.</summary>
    public static Dictionary<string, string> Taken(RatePlan plan, IReadOnlyDictionary<string, string>? given) =>
        plan.Options.ToDictionary(o => o.Name, o => given is not null && given.TryGetValue(o.Name, out var choice) ? choice : o.Default);

    /// <summary>All combinations of choices.</summary>
    public static IEnumerable<Dictionary<string, string>> All(RatePlan plan)
    {
        IEnumerable<Dictionary<string, string>> combinations = [new()];
        foreach (var option in plan.Options)
        {
            combinations = combinations.SelectMany(c => option.Choices.Select(choice => new Dictionary<string, string>(c) { [option.Name] = choice }));
        }

        return combinations;
    }

    /// <summary>The plan under choices.</summary>
    public static RatePlan Made(RatePlan plan, IReadOnlyDictionary<string, string>? given)
    {
        if (plan.Options.Count == 0 && plan.Allowances.Count == 0)
        {
            return plan;
        }

        var taken = Taken(plan, given);
        return plan with
        {
            Calendar = Made(plan.Calendar, taken),
            Calendars = plan.Calendars.ToDictionary(c => c.Key, c => Made(c.Value, taken)),
            CustomerCharges = Kept(plan.CustomerCharges, taken),
            EnergyCharges = [.. Kept(plan.EnergyCharges, taken).Select(c => Made(plan, c, taken))],
            Adjustments = [.. Kept(plan.Adjustments, taken).Select(c => Made(plan, c, taken))],
            DemandCharges = Kept(plan.DemandCharges, taken),
            Credits = Kept(plan.Credits, taken),
            Rebates = [.. plan.Rebates.Where(r => r.When?.HoldsFor(taken) != false)],
            Taxes = [.. plan.Taxes.Where(t => t.When?.HoldsFor(taken) != false)],
            Export = plan.Export is { } export ? export with { Prices = Kept(export.Prices, taken) } : null,
            Options = [],
            Allowances = [],
        };
    }

    private static T[] Kept<T>(IReadOnlyList<T> charges, Dictionary<string, string> taken)
        where T : Scope =>
        [.. charges.Where(c => c.When?.HoldsFor(taken) != false)];

    private static RateCalendar Made(RateCalendar calendar, Dictionary<string, string> taken) =>
        calendar.Windows.All(w => w.When is null) ? calendar : calendar.With([.. calendar.Windows.Where(w => w.When?.HoldsFor(taken) != false)]);

    private static EnergyCharge Made(RatePlan plan, EnergyCharge charge, Dictionary<string, string> taken)
    {
        if (charge.Allowance is not { } name || plan.Allowances.FirstOrDefault(a => a.Name == name) is not { } allowance)
        {
            return charge;
        }

        var amount = plan.Calendar.Seasons.Where(s => charge.CoversSeason(s.Name)).SelectMany(s => allowance.In(s.Name, taken)).FirstOrDefault()?.Kwh ?? 0;
        return charge with
        {
            Allowance = null,
            Blocks = [.. charge.Blocks.Select(b => b.UpToAllowance is { } share
                ? b with { UpToKwh = Math.Min(b.UpToKwh ?? decimal.MaxValue, share * amount), UpToAllowance = null }
                : b)],
        };
    }
}
