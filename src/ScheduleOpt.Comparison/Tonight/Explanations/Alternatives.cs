using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>Solves changed questions and compares them with the one asked: as much stored at the end, up to the ordinary limit, so that the difference of the bills is the whole difference.</summary>
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
        endKwh = [.. HouseholdLeast.Of(plan.Problem, order).StoredKwh.Zip(plan.Problem.Cars, (own, car) => Math.Min(car.Problem.OrdinaryKwh, own[^1]) - EndRoomKwh)];
        Asked = Least(plan.Problem);
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

    /// <summary>The optimum of a changed question.</summary>
    public HouseholdLeast Least(HouseholdCase changed) => Least(HouseholdProblemBuilder.Build(changed));

    /// <summary>What a changed question adds to the bill; none where a departure, or the end, would be served worse or better than asked.</summary>
    public BillDifference? Extra(HouseholdCase changed)
    {
        var least = Least(changed);
        return ServesAlike(least) ? new(least.Bill - Asked.Bill, Even(End(least) - End(Asked))) : null;
    }

    /// <summary>Whether every shortfall is as it was.</summary>
    public bool ServesAlike(HouseholdLeast least) => Grown(least) <= SameKwh && Shrunk(least) <= SameKwh;

    /// <summary>The most by which a shortfall is larger than with the question asked. [kWh]</summary>
    public double Grown(HouseholdLeast least, int exceptCar = -1, int exceptDeparture = -1) => Most(least, (now, asked) => now - asked, exceptCar, exceptDeparture);

    /// <summary>Runs of the problem's schedule, windows of one car. Rules of running hold.</summary>
    public HouseholdSchedule Runnable(HouseholdProblem problem) => HouseholdScheduler.Solve(problem, order, proveBound: false);

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
