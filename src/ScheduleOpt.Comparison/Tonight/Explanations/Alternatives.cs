using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>Solves changed questions and compares them with the one asked: as much stored at the end, up to the ordinary limit, so that the difference of the bills is the whole difference.</summary>
/// <remarks>
/// By steps 1 and 2, exact: the direct sweep where nothing couples the charges, otherwise the relaxation, whose optimum the schedule comes up to within its gap; on and off, least times and whole
/// amperes are not in it. One programme a change, with what goes unmet held as it is; none where the answer is known without: a wish that does not bind costs nothing when it is lowered (of convex costs),
/// and nothing when it is raised to what the car has then anyway.
/// </remarks>
internal sealed class Alternatives
{
    /// <summary>A shortfall may differ by so much and be the same. [kWh]</summary>
    public const double SameKwh = 1e-5;

    // Room, so that an end that is only just reached is not missed by a rounding error.
    private const double EndRoomKwh = 1e-7;

    private readonly ShortfallOrder order;
    private readonly double[] endKwh;

    public Alternatives(NightPlan plan)
    {
        Plan = plan;
        order = plan.Question.Order;

        // Any end would do to compare at: of coupled charges the schedule's own spares a programme.
        var ends = plan.Route == SolveRoute.Shares ? HouseholdLeast.Of(plan.Problem, order).StoredKwh : [.. plan.Schedule.Cars.Select(c => c.StoredKwh)];
        endKwh = [.. ends.Zip(plan.Problem.Cars, (own, car) => Math.Min(car.Problem.OrdinaryKwh, own[^1]) - EndRoomKwh)];

        // Margins that running rules alone prevent are kept here, as in every changed question.
        var givenUp = plan.Problem.Cars.Any(c => c.Problem.Departures.Any(d => !d.MarginKept));
        Asked = Least(givenUp ? HouseholdProblemBuilder.Build(plan.Question.Case) : plan.Problem);
    }

    public NightPlan Plan { get; }

    /// <summary>The optimum of the question asked.</summary>
    public HouseholdLeast Asked { get; }

    /// <summary>The question with one car's part changed.</summary>
    public HouseholdCase With(int car, Func<ChargingCase, ChargingCase> change)
    {
        var question = Plan.Question.Case;
        return question with { Cars = [.. question.Cars.Select((c, k) => k == car ? c with { Case = change(c.Case) } : c)] };
    }

    /// <summary>The problem of a changed question, with as much stored at the end as the one asked.</summary>
    public HouseholdProblem ProblemOf(HouseholdCase changed) => Ended(HouseholdProblemBuilder.Build(changed));

    /// <summary>What a changed question adds to the bill; none where a departure, or the end, would be served worse or better than asked.</summary>
    public BillDifference? Extra(HouseholdCase changed) => Difference(Alike(ProblemOf(changed)));

    /// <summary>The optimum of a changed question, or null where it serves a departure, or the end, worse or better than asked.</summary>
    public HouseholdLeast? Alike(HouseholdProblem changed)
    {
        // With nothing unmet as asked nothing can be served better.
        var least = Asked.AnyShort ? HouseholdLeast.Of(changed, order) : HouseholdLeast.NoWorseThan(changed, Asked, order);
        return least is not null && ServesAlike(least) ? least : null;
    }

    /// <summary>Whether a changed question leaves a departure short no more, and no other shorter for it.</summary>
    public bool Cures(HouseholdCase changed, int car, int departure) =>
        HouseholdLeast.NoWorseThan(ProblemOf(changed), Asked, order, (car, departure)) is { } least
        && least.TripShortfallKwh[car][departure] <= SameKwh && least.TargetShortfallKwh[car][departure] <= SameKwh
        && Grown(least, car, departure) <= SameKwh;

    /// <summary>What an optimum adds to the bill.</summary>
    public BillDifference? Difference(HouseholdLeast? least) => least is null ? null : new(least.Bill - Asked.Bill, Even(End(least) - End(Asked)));

    /// <summary>Runs of the problem's schedule, windows of one car. Rules of running hold.</summary>
    public IReadOnlyList<CurrentStep> Runnable(HouseholdProblem problem, HouseholdLeast least, int car) => least.Runnable(problem, order)[car];

    /// <summary>Whether every shortfall is as it was.</summary>
    public bool ServesAlike(HouseholdLeast least) => Grown(least) <= SameKwh && Shrunk(least) <= SameKwh;

    /// <summary>The most by which a shortfall is larger than with the question asked. [kWh]</summary>
    private double Grown(HouseholdLeast least, int exceptCar = -1, int exceptDeparture = -1) => Most(least, (now, asked) => now - asked, exceptCar, exceptDeparture);

    private static double End(HouseholdLeast least) => least.StoredKwh.Sum(own => own[^1]);

    private static double Even(double kwh) => Math.Abs(kwh) <= SameKwh ? 0 : kwh;

    private double Shrunk(HouseholdLeast least) => Most(least, (now, asked) => asked - now, -1, -1);

    private double Most(HouseholdLeast least, Func<double, double, double> difference, int exceptCar, int exceptDeparture)
    {
        var most = 0.0;
        for (var c = 0; c < least.TripShortfallKwh.Length; c++)
        {
            for (var k = 0; k < least.TripShortfallKwh[c].Length; k++)
            {
                if (c != exceptCar || k != exceptDeparture)
                {
                    most = Math.Max(most, difference(least.TripShortfallKwh[c][k], Asked.TripShortfallKwh[c][k]));
                    most = Math.Max(most, difference(least.TargetShortfallKwh[c][k], Asked.TargetShortfallKwh[c][k]));
                }
            }

            most = Math.Max(most, difference(least.FinalShortfallKwh[c], Asked.FinalShortfallKwh[c]));
        }

        return most;
    }

    private HouseholdLeast Least(HouseholdProblem problem) => HouseholdLeast.Of(Ended(problem), order);

    private HouseholdProblem Ended(HouseholdProblem problem) => problem with
    {
        Cars = [.. problem.Cars.Select((car, c) => car with { Problem = car.Problem with { EndValuePerKwh = 0, FinalKwh = endKwh[c] } })],
    };
}
