using System.Collections.Concurrent;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year.Nights;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year;

/// <summary>What all cells of a set-up share: its physics over the year, and what can be forecast on each night.</summary>
internal sealed class SetUpYear(YearFrame frame, SetUp setUp)
{
    private readonly Lazy<ChargingProblem> physics = new(() => frame.Problem(setUp, null));
    private readonly ConcurrentDictionary<LeastCostByNight, Lazy<NightForecast[]>> nights = [];

    public SetUp SetUp { get; } = setUp;

    /// <summary>The year without prices.</summary>
    public ChargingProblem Unpriced => physics.Value;

    /// <summary>The year at a rate plan's prices, as its bill has them; the arrays of its physics are shared unless an interval lies in two of the meter's.</summary>
    public ChargingProblem At(PlanYear plan) =>
        plan.PricesOn(Unpriced) is { } prices ? Unpriced with { Price = prices } : frame.Problem(SetUp, plan.Prices);

    /// <summary>The forecasts of each night on the year's own grid.</summary>
    public NightForecast[] Nights(LeastCostByNight behaviour, ChargingProblem year) => year.Boundaries == Unpriced.Boundaries
        ? nights.GetOrAdd(behaviour, b => new Lazy<NightForecast[]>(() => NightForecasts.Of(frame, Unpriced, b))).Value
        : NightForecasts.Of(frame, year, behaviour);
}
