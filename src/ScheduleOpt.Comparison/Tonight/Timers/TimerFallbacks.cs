using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>What to set where nothing can follow the schedule itself: a simple car, a plain timer.</summary>
/// <param name="StartTime">The best single start of each night; none: no current allows one.</param>
/// <param name="FinishTime">The best single time to be done by of each night; charging begins as late as that allows. None: no current allows one.</param>
/// <param name="SingleCurrent">The current to set where only one setting is possible; none: the car can't charge at home.</param>
public sealed record TimerFallbacks(TimerSetting? StartTime, TimerSetting? FinishTime, SingleCurrent? SingleCurrent)
{
    /// <summary>All of them, of one car whose charges are not coupled with anything; of others none.</summary>
    /// <param name="question">The question.</param>
    /// <param name="plan">The full schedule for it.</param>
    public static TimerFallbacks Of(NightQuestion question, NightPlan plan) =>
        plan.Route == SolveRoute.Shares
            ? new(TimerChoice.Best(plan.Cars[0], byFinish: false), TimerChoice.Best(plan.Cars[0], byFinish: true), SingleCurrent.Of(question, plan))
            : new(null, null, null);
}
