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

    /// <summary>The cells: by set-up, then rate plan, then behaviour; each the simulation and the rate plan that it is made of.</summary>
    public static IEnumerable<(int Task, int Plan)> CellsOf(IReadOnlyList<YearTask> tasks, int plans) =>
        Enumerable.Range(0, tasks.Count)
            .GroupBy(t => tasks[t].SetUp)
            .SelectMany(setUp => Enumerable.Range(0, plans).SelectMany(
                plan => setUp.Where(t => (tasks[t].Plan ?? plan) == plan).Select(t => (t, plan))));

    /// <summary>Simulates the year.</summary>
    public YearRun Run(YearFrame frame, Lazy<ChargingProblem> withoutPrices, IReadOnlyList<PlanYear> plans) => Behaviour switch
    {
        null => YearRun.PublicOnly(frame, SetUp),
        UnaidedBehaviour unaided => YearRun.Of(frame, withoutPrices.Value, unaided),
        _ => YearRun.LeastCost(frame, SetUp, plans[Plan!.Value].Prices),
    };
}
