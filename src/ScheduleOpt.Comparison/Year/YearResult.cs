using NodaTime;

namespace ScheduleOpt.Comparison.Year;

/// <summary>A comparison worked out.</summary>
/// <param name="Start">Midnight at which the year begins.</param>
/// <param name="End">Midnight at which it ends.</param>
/// <param name="Currency">ISO 4217 code of all money.</param>
/// <param name="ColdestWeek">The coldest week and how it may be called.</param>
/// <param name="Cells">By set-up, then rate plan, then behaviour, in the order of the case; public charging alone: one a plan.</param>
/// <param name="Warnings">What holds for all cells.</param>
public sealed record YearResult(
    Instant Start, Instant End, string Currency, ColdestWeek ColdestWeek, IReadOnlyList<YearCell> Cells, IReadOnlyList<string> Warnings)
{
    /// <summary>The cells by whole-house cash cost, cheapest first; equal ones in the order of <see cref="Cells"/>.</summary>
    public IEnumerable<YearCell> Ranked => Cells.OrderBy(c => c.Rank);
}
