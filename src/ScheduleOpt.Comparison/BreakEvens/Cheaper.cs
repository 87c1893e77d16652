namespace ScheduleOpt.Comparison.BreakEvens;

/// <summary>Which of two alternatives costs less.</summary>
public enum Cheaper
{
    /// <summary>The first.</summary>
    First,

    /// <summary>The second.</summary>
    Second,

    /// <summary>Neither.</summary>
    Equal,
}
