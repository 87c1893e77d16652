namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>One year of an alternative, not discounted, in constant money; year 0 is the base date. [currency]</summary>
/// <param name="Year">Years after the base date.</param>
/// <param name="Investment">First costs.</param>
/// <param name="OneTimeIncentives">Incentives paid once.</param>
/// <param name="Energy">Energy at that year's prices.</param>
/// <param name="Operation">Operation and maintenance.</param>
/// <param name="YearlyIncentives">Incentives paid each year.</param>
/// <param name="Replacement">Replacements.</param>
/// <param name="Salvage">What is left, in the last year.</param>
public sealed record LifeCycleYear(
    int Year,
    decimal Investment,
    decimal OneTimeIncentives,
    decimal Energy,
    decimal Operation,
    decimal YearlyIncentives,
    decimal Replacement,
    decimal Salvage)
{
    /// <summary>Energy and operation less yearly incentives: what a better alternative saves on.</summary>
    public decimal Running => Energy + Operation - YearlyIncentives;

    /// <summary>Investment and replacement less one-time incentives and salvage: what a better alternative costs more.</summary>
    public decimal Capital => Investment - OneTimeIncentives + Replacement - Salvage;

    internal static LifeCycleYear Of(LifeCycleAlternative alternative, StudyPeriod study, int year)
    {
        var granted = alternative.Incentives.Where(i => i.IsInForceOn(study.BaseDate)).ToArray();
        var first = year == 0;
        return new LifeCycleYear(
            year,
            first ? alternative.Investment.Sum(l => l.Amount) : 0,
            granted.Where(i => i.EachYear is null).Sum(i => i.AmountIn(year)),
            first ? 0 : alternative.Energy.Sum(l => l.AmountPerYear * l.Path.Index(year)),
            first ? 0 : alternative.Operation.Sum(l => l.AmountPerYear),
            granted.Where(i => i.EachYear is not null).Sum(i => i.AmountIn(year)),
            alternative.Replacements.Where(l => l.Year == year).Sum(l => l.Amount),
            year == study.Years ? alternative.Salvage.Sum(l => l.Amount) : 0);
    }
}
