namespace ScheduleOpt.Comparison.BreakEvens;

/// <summary>A place on an axis where the cheaper of two alternatives changes.</summary>
/// <param name="From">Where the alternative that was cheaper below stops being so.</param>
/// <param name="Until">Where the other begins to be; the same place within the tolerance, unless both cost the same in between.</param>
/// <param name="Below">The cheaper one below.</param>
/// <param name="Above">The cheaper one above.</param>
/// <param name="IsJump">Whether the costs jump past each other there, as at a step of a bill, and are not equal at any point.</param>
public sealed record BreakEven(double From, double Until, Cheaper Below, Cheaper Above, bool IsJump)
{
    /// <summary>The middle of it.</summary>
    public double At => From + ((Until - From) / 2);
}
