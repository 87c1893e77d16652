using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Plans the nights that a request asks about.</summary>
public static class ScheduleAnswering
{
    private const string EachAlone =
        "Each car was planned by itself, with an equal part of the circuit that they share; what they do to each other's cost is not counted.";

    /// <summary>Answers a request. Every request that was read has an answer.</summary>
    public static ScheduleAnswer Answer(ScheduleRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var question = ScheduleQuestion.HouseholdOf(request);
        var plans = question.Cars.Select(car => NightPlanner.Plan(new(Alone(question, car.Case), request.Options.ShortfallOrder))).ToArray();
        var onArrival = plans.Select(plan => BehaviourSimulator.Run(plan.Problem, new OnArrival()).Replay).ToArray();
        return new ScheduleAnswer
        {
            Request = request,
            Cars = [.. plans.Select((plan, i) => Of(request, request.Cars[i], plan))],
            Prices = question.Cars[0].Case.Prices,
            Cost = plans.Sum(p => p.Cost),
            CostOnArrival = plans.Sum(p => p.CostOnArrival),
            ExtraEndKwhOnArrival = plans.Sum(p => p.ExtraEndKwhOnArrival),
            ExtraAwayKwhOnArrival = plans.Select((p, i) => onArrival[i].TripShortfallKwh.Sum() - p.Replay.TripShortfallKwh.Sum()).Sum(),
            BoundCost = plans.Sum(p => p.BoundCost),
            Gap = plans.Sum(p => p.Gap),
            GapIsFine = plans.All(p => p.GapIsFine),
            Route = SolveRoute.Shares,
            LimitReached = plans.Any(p => p.LimitReached),
            Warnings = [.. plans.SelectMany(p => p.Warnings).Distinct(), .. request.Cars.Count > 1 ? [EachAlone] : Array.Empty<string>()],
            CheckFindings = [.. plans.SelectMany(p => p.CheckFindings)],
        };
    }

    // Equal parts of the circuit can never be too much for it.
    private static ChargingCase Alone(HouseholdCase household, ChargingCase car) => household.SharedCircuitA is not { } most || car.Supply is not { } supply
        ? car
        : car with { Supply = supply with { UnitLimitA = Math.Min(supply.UnitLimitA ?? most, most / household.Cars.Count) } };

    private static CarAnswer Of(ScheduleRequest request, CarRequest car, NightPlan plan)
    {
        var steps = plan.Windows.Select(w => (IReadOnlyList<StepAnswer>)[Step(plan, w.Start, w.End)]).ToArray();
        var (windows, withdrawn) = new WindowIdentity(car, request.Zone.Zone).Name(steps, plan.Problem.Boundaries[0], request.AsOf);
        return new CarAnswer
        {
            Car = car,
            CurrentA = plan.FullCurrentA,
            PowerKw = plan.FullPowerKw,
            Windows = windows,
            Withdrawn = withdrawn,
            Departures = plan.Departures,
            Intervals = [.. Enumerable.Range(0, plan.Problem.Count).Select(i => Interval(plan, i))],
        };
    }

    private static IntervalAnswer Interval(NightPlan plan, int i)
    {
        var problem = plan.Problem;
        var current = problem.Place[i] == Place.Home && plan.Shares[i] > 0 ? plan.FullCurrentA : 0;
        return new(
            problem.Boundaries[i], problem.Boundaries[i + 1], problem.Place[i], problem.TemperatureC[i], problem.Price[i], plan.Shares[i], current,
            plan.Replay.WallKwh[i], plan.Replay.StoredKwh[i], plan.Replay.StoredKwh[i + 1]);
    }

    /// <summary>What a while at one current takes and costs: an interval's energy is shared among its whiles by their time in it.</summary>
    private static StepAnswer Step(NightPlan plan, Instant from, Instant until)
    {
        var problem = plan.Problem;
        var (energy, cost) = (0.0, 0.0);
        var first = Array.BinarySearch(problem.Boundaries, from);
        for (var i = first >= 0 ? first : ~first - 1; i < problem.Count && problem.Boundaries[i] < until; i++)
        {
            var (start, end) = (Instant.Max(problem.Boundaries[i], from), Instant.Min(problem.Boundaries[i + 1], until));
            var on = plan.Replay.OnHours[i];
            var share = on > 0 ? Math.Min(1, (end - start).TotalHours / on) : 0;
            energy += plan.Replay.WallKwh[i] * share;
            cost += plan.Replay.WallKwh[i] * share * problem.Price[i];
        }

        return new(from, until, plan.FullCurrentA, energy, cost);
    }
}
