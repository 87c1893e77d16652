using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Choices;

/// <summary>An allowance (baseline) that limits of blocks are multiples of.</summary>
/// <param name="Name">Its name in the document.</param>
/// <param name="Amounts">For each season and combination of choices exactly one.</param>
public sealed record Allowance(string Name, IReadOnlyList<AllowanceAmount> Amounts)
{
    /// <summary>The amounts that hold in a season of the plan's own calendar under choices.</summary>
    internal IEnumerable<AllowanceAmount> In(string season, IReadOnlyDictionary<string, string> taken) =>
        Amounts.Where(a => (a.Seasons.Count == 0 || a.Seasons.Contains(season)) && a.When?.HoldsFor(taken) != false);
}

/// <summary>An amount of an allowance.</summary>
/// <param name="Kwh">The amount; what it is counted by is the charge's. [kWh]</param>
/// <param name="Seasons">Seasons in which it holds; empty for all.</param>
/// <param name="When">Choices under which it holds; none: always.</param>
public sealed record AllowanceAmount(decimal Kwh, IReadOnlyList<string> Seasons, Condition? When);
