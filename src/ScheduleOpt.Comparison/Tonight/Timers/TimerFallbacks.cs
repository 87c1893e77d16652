namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>What to set where nothing can follow the schedule itself: a simple car, a plain timer. Other cars follow the schedule.</summary>
/// <param name="StartTime">The best single start of each night; none: no current allows one.</param>
/// <param name="FinishTime">The best single time to be done by of each night; charging begins as late as that allows. None: no current allows one.</param>
/// <param name="SingleCurrent">The current to set where only one setting is possible; none: the car can't charge at home.</param>
/// <param name="WhyNot">Why there is no single start or finish, or none that serves as well as the schedule, where a limit of the household is in its way.</param>
public sealed record TimerFallbacks(TimerSetting? StartTime, TimerSetting? FinishTime, SingleCurrent? SingleCurrent, string? WhyNot = null)
{
    /// <summary>All of them, of one car.</summary>
    /// <param name="question">The question.</param>
    /// <param name="plan">The full schedule for it.</param>
    /// <param name="car">Index of the car.</param>
    public static TimerFallbacks Of(NightQuestion question, NightPlan plan, int car = 0)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var site = new TimerSite(plan, car);
        var (start, finish) = (TimerChoice.Best(site, byFinish: false), TimerChoice.Best(site, byFinish: true));
        return new(start, finish, SingleCurrent.Of(question, plan, car), start is { IsAsReady: true } && finish is { IsAsReady: true } ? null : site.WhyNot());
    }
}
