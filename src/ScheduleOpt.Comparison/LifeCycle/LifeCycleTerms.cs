namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>What all alternatives of a comparison share.</summary>
public sealed record LifeCycleTerms
{
    /// <summary>The study period.</summary>
    public required StudyPeriod Study { get; init; }

    /// <summary>The real discount rate. Default 3 %.</summary>
    public DiscountRate Rate { get; init; } = DiscountRate.Default;

    /// <summary>The loan that pays for the set-up; none: paid from savings.</summary>
    public Loan? Loan { get; init; }
}
