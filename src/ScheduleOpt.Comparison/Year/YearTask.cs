using ScheduleOpt.Comparison.Behaviours;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One simulation of a year: for a set-up and a behaviour, and for least cost the rate plans whose prices it looks at.</summary>
/// <param name="Year">The set-up with what its simulations share.</param>
/// <param name="Behaviour">The behaviour; none with public charging alone.</param>
/// <param name="Plans">The rate plans that the simulation is billed on: equal to each other in all that it looks at.</param>
internal sealed record YearTask(SetUpYear Year, Behaviour? Behaviour, IReadOnlyList<PlanYear> Plans)
{
    public SetUp SetUp => Year.SetUp;

    /// <summary>For how many parts of the work it counts: where plans are alike, one simulation stands for several.</summary>
    public int Parts => Behaviour is null or UnaidedBehaviour ? 1 : Plans.Count;

    /// <summary>The parts of all simulations of a case.</summary>
    public static int PartsOf(YearCase question) => question.SetUps.Sum(
        s => s.Supply is null ? 1 : question.Behaviours.Sum(b => b is UnaidedBehaviour ? 1 : question.RatePlans.Count));

    /// <summary>All simulations that a comparison needs, each once.</summary>
    public static IEnumerable<YearTask> Of(YearFrame frame, IReadOnlyList<PlanYear> plans)
    {
        var alike = PricesAlike.Groups(plans);
        foreach (var setUp in frame.Question.SetUps)
        {
            var year = new SetUpYear(frame, setUp);
            if (setUp.Supply is null)
            {
                // Without charging at home a meter for the car would stand idle.
                yield return new YearTask(year, null, [.. plans.Where(p => p.HousePlan is null)]);
                continue;
            }

            foreach (var behaviour in frame.Question.Behaviours)
            {
                if (behaviour is UnaidedBehaviour)
                {
                    yield return new YearTask(year, behaviour, plans);
                    continue;
                }

                foreach (var group in alike)
                {
                    yield return new YearTask(year, behaviour, group);
                }
            }
        }
    }

    /// <summary>Simulates the year.</summary>
    public YearRun Run(YearFrame frame) => Behaviour switch
    {
        null => YearRun.PublicOnly(frame, Year),
        UnaidedBehaviour unaided => YearRun.Of(frame, Year.Unpriced, unaided),
        LeastCostByNight byNight => YearRun.ByNight(frame, Year, Plans[0], byNight),
        _ => KnownAheadYear.Run(frame, Year, Plans[0]),
    };
}
