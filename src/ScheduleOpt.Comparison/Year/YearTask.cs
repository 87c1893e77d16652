using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One simulation of a year: for a set-up and a behaviour, and for least cost a rate plan.</summary>
/// <param name="SetUp">The set-up.</param>
/// <param name="Behaviour">The behaviour; none with public charging alone.</param>
/// <param name="Plan">Index of the rate plan that the behaviour looks at; none where it looks at none.</param>
internal sealed record YearTask(SetUp SetUp, Behaviour? Behaviour, int? Plan)
{
    /// <summary>All simulations that a comparison needs, each once.</summary>
    public static IEnumerable<YearTask> Of(YearCase question, int plans)
    {
        foreach (var setUp in question.SetUps)
        {
            if (setUp.Supply is null)
            {
                yield return new YearTask(setUp, null, null);
                continue;
            }

            foreach (var behaviour in question.Behaviours)
            {
                if (behaviour is UnaidedBehaviour)
                {
                    yield return new YearTask(setUp, behaviour, null);
                    continue;
                }

                for (var plan = 0; plan < plans; plan++)
                {
                    yield return new YearTask(setUp, behaviour, plan);
                }
            }
        }
    }

    /// <summary>The rate plans that the simulation is billed on: the one that it looked at, or all.</summary>
    public IEnumerable<PlanYear> PlansOf(IReadOnlyList<PlanYear> plans) => Plan is { } plan ? [plans[plan]] : plans;

    /// <summary>Simulates the year.</summary>
    public YearRun Run(YearFrame frame, Lazy<ChargingProblem> withoutPrices, IReadOnlyList<PlanYear> plans) => Behaviour switch
    {
        null => YearRun.PublicOnly(frame, SetUp),
        UnaidedBehaviour unaided => YearRun.Of(frame, withoutPrices.Value, unaided),
        LeastCostKnownAhead => YearRun.LeastCost(frame, SetUp, plans[Plan!.Value].Prices),
        _ => throw new NotSupportedException($"The year does not run {Behaviour.Name} yet."),
    };
}
