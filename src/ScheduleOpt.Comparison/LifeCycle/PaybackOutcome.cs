namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>Whether savings return an investment.</summary>
public enum PaybackOutcome
{
    /// <summary>The alternative costs no more than the reference at the start.</summary>
    NothingToPayBack,

    /// <summary>Paid back, and still so at the end of the study period.</summary>
    PaidBack,

    /// <summary>Paid back once, but a later replacement or dearer running takes it below again by the end of the study period.</summary>
    PaidBackThenLost,

    /// <summary>Not paid back within the study period.</summary>
    NotInStudyPeriod,
}
