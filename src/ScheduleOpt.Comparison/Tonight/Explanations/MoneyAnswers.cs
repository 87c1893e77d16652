using NodaTime;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>What changes of the question would cost or save, each by solving the changed question.</summary>
internal sealed class MoneyAnswers(Alternatives alternatives, int car)
{
    private const double PointsMore = 0.1;
    private static readonly Duration Earlier = Duration.FromHours(1);

    private readonly CarPlan own = alternatives.Plan.Cars[car];
    private readonly NightPlan plan = alternatives.Plan;

    /// <summary>What so much more, or less, at a departure adds to the bill. [currency]</summary>
    /// <param name="departure">Index of the departure.</param>
    /// <param name="kwh">How much more. [kWh] Below 0: less.</param>
    public BillDifference? MoreAt(int departure, double kwh)
    {
        var asked = own.Departures[departure];
        var required = asked.RequiredKwh + kwh;
        var limit = own.Case.Vehicle.ExtendedLimit.Fraction * own.Problem.UsableKwh;
        return required < 0 || required > limit + Alternatives.SameKwh ? null
            : CostsNothing(departure, kwh) ? new(0, 0)
            : alternatives.Extra(alternatives.With(car, c => Requiring(c, asked.Departure, Math.Min(limit, required))));
    }

    /// <summary>Whether the optimum as asked stays one: it has as much as would be asked for then, below the ordinary limit, so that no bound moves; or the wish does not bind and is lowered.</summary>
    private bool CostsNothing(int departure, double kwh)
    {
        var (asked, problem) = (own.Departures[departure], own.Problem);
        var (k, due) = (problem.Departures[departure], alternatives.Asked);
        var above = due.StoredKwh[car][k.DueBoundary] - asked.RequiredKwh;
        return plan.Route != SolveRoute.Shares && k.DueBoundary == k.Boundary && asked.RequiredKwh + Math.Max(0, kwh) <= problem.OrdinaryKwh
            && (kwh > 0 ? above >= kwh : due.IsConvex && above > Alternatives.SameKwh);
    }

    /// <summary>One kWh more and less at the next departure.</summary>
    public OneMoreKwh? OneMore() => own.Departures.Count == 0 ? null : new(MoreAt(0, 1), MoreAt(0, -1));

    /// <summary>Ten points of the battery more at the next departure.</summary>
    public BillDifference? TenPercentMore() => own.Departures.Count == 0 ? null : MoreAt(0, PointsMore * own.Problem.UsableKwh);

    /// <summary>The next departure an hour earlier, with the same return and the same energy.</summary>
    public BillDifference? AnHourEarlier()
    {
        if (own.Departures.Count == 0 || own.Departures[0].Departure - Earlier <= own.Case.Start)
        {
            return null;
        }

        var at = own.Departures[0].Departure;
        return alternatives.Extra(alternatives.With(car, c => c with
        {
            Calendar = new DrivingCalendar(c.Calendar.Trips.Select(t => t.Departure == at ? LeavingEarlier(t) : t)),
            RequiredKwh = c.RequiredKwh?.ToDictionary(r => r.Key == at ? at - Earlier : r.Key, r => r.Value),
        }));
    }

    /// <summary>The next larger standard breaker with the same unit, car and rule.</summary>
    public NextCircuit? NextCircuit()
    {
        if (own.Case.Supply is not { } supply || Larger(supply) is not { } larger)
        {
            return null;
        }

        // Where the car, its unit or the shared circuit hold the current, a larger breaker changes nothing.
        var most = Math.Min(larger.ChargingCurrentA(own.Case.Vehicle), plan.Question.Case.SharedCircuitA ?? double.PositiveInfinity);
        var extra = most <= own.FullCurrentA ? new(0, 0) : alternatives.Extra(alternatives.With(car, c => c with { Supply = larger }));
        return extra is null ? null : new(larger.BreakerA, extra);
    }

    /// <summary>The best schedule that leaves the first window's hours out.</summary>
    public NextBest? NextBest()
    {
        if (own.Windows.Count == 0)
        {
            return null;
        }

        var first = own.Windows[0];
        var changed = alternatives.With(car, c => c with { NoCharging = [.. c.NoCharging, new Interval(first.Start, first.End)] });
        var problem = alternatives.ProblemOf(changed);
        if (alternatives.Alike(problem) is not { } least || alternatives.Difference(least) is not { } extra)
        {
            return null;
        }

        var windows = CarRun.WindowsOf(alternatives.Runnable(problem, least, car));
        return new(extra, windows, $"Without the hours of the first window the bill is {Sentences.Money(extra.Bill, own.Case.Prices.Currency)} higher.");
    }

    /// <summary>The next larger standard circuit; none for a domestic socket, whose limit is the socket's.</summary>
    public static Supply? Larger(Supply supply) => supply.Rule == ContinuousRatingRule.DomesticSocket || StandardBreaker.Above(supply.BreakerA) is not { } size
        ? null
        : supply with { BreakerA = size, StatedCurrentA = null };

    /// <summary>A question in which a departure asks for so much.</summary>
    public static ChargingCase Requiring(ChargingCase question, Instant departure, double kwh) => question with
    {
        RequiredKwh = new Dictionary<Instant, double>(question.RequiredKwh ?? new Dictionary<Instant, double>()) { [departure] = kwh },
    };

    private static Trip LeavingEarlier(Trip trip) => trip with
    {
        Departure = trip.Departure - Earlier,
        Legs = [trip.Legs[0] with { Start = trip.Legs[0].Start - Earlier }, .. trip.Legs.Skip(1)],
    };
}
