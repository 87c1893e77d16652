namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>What an alternative costs over the study period, in present values of constant money. [currency]</summary>
/// <remarks>10 CFR 436.19: investment less salvage, operation and maintenance, replacement and energy. Not rounded: who shows it rounds.</remarks>
public sealed record LifeCycleCost
{
    private LifeCycleCost(LifeCycleAlternative alternative, StudyPeriod study, DiscountRate rate)
    {
        Alternative = alternative;
        Study = study;
        Rate = rate;
        Years = [.. Enumerable.Range(0, study.Years + 1).Select(y => LifeCycleYear.Of(alternative, study, y))];
        Investment = Present(y => y.Investment);
        OneTimeIncentives = Present(y => y.OneTimeIncentives);
        Energy = Present(y => y.Energy);
        Operation = Present(y => y.Operation);
        YearlyIncentives = Present(y => y.YearlyIncentives);
        Replacement = Present(y => y.Replacement);
        Salvage = Present(y => y.Salvage);
    }

    /// <summary>The alternative.</summary>
    public LifeCycleAlternative Alternative { get; }

    /// <summary>The study period.</summary>
    public StudyPeriod Study { get; }

    /// <summary>The discount rate.</summary>
    public DiscountRate Rate { get; }

    /// <summary>Year by year, not discounted; the first is the base date.</summary>
    public IReadOnlyList<LifeCycleYear> Years { get; }

    /// <summary>First costs.</summary>
    public decimal Investment { get; }

    /// <summary>Incentives paid once, to be taken off.</summary>
    public decimal OneTimeIncentives { get; }

    /// <summary>Energy.</summary>
    public decimal Energy { get; }

    /// <summary>Operation and maintenance.</summary>
    public decimal Operation { get; }

    /// <summary>Incentives paid each year, to be taken off.</summary>
    public decimal YearlyIncentives { get; }

    /// <summary>Replacements.</summary>
    public decimal Replacement { get; }

    /// <summary>What is left at the end, to be taken off.</summary>
    public decimal Salvage { get; }

    /// <summary>Energy and operation less yearly incentives.</summary>
    public decimal Running => Energy + Operation - YearlyIncentives;

    /// <summary>Investment and replacement less one-time incentives and salvage.</summary>
    public decimal Capital => Investment - OneTimeIncentives + Replacement - Salvage;

    /// <summary>The life-cycle cost.</summary>
    public decimal Total => Running + Capital;

    /// <summary>The capital as an equal amount at the end of each year of the study period. [currency a year]</summary>
    public decimal CapitalPerYear => Capital / Rate.UniformPresentValue(Study.Years);

    /// <summary>Incentives that are not in force on the base date and count nothing.</summary>
    public IEnumerable<Incentive> IncentivesNotInForce => Alternative.Incentives.Where(i => !i.IsInForceOn(Study.BaseDate));

    /// <summary>Works it out.</summary>
    /// <exception cref="ArgumentException">The alternative contradicts itself: see <see cref="LifeCycleCheck"/>.</exception>
    public static LifeCycleCost Of(LifeCycleAlternative alternative, StudyPeriod study, DiscountRate rate)
    {
        ArgumentNullException.ThrowIfNull(rate);
        LifeCycleCheck.ThrowIfContradictory(alternative, study);
        return new LifeCycleCost(alternative, study, rate);
    }

    private decimal Present(Func<LifeCycleYear, decimal> amount) => Years.Sum(y => amount(y) * Rate.SinglePresentValue(y.Year));
}
