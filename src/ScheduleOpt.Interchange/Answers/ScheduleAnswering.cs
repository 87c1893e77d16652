using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Explanations;
using ScheduleOpt.Comparison.Tonight.Replanning;
using ScheduleOpt.Comparison.Tonight.Timers;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Plans the nights that a request asks about.</summary>
public static class ScheduleAnswering
{
    /// <summary>Answers a request. Every request that was read has an answer.</summary>
    public static ScheduleAnswer Answer(ScheduleRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var question = ScheduleQuestion.Of(request);
        var (plan, notices) = Keeping(request, NightPlanner.Plan(question));
        var explains = request.Options.Explain && plan.CheckFindings.Count == 0;
        var reasons = explains ? NightExplanations.Of(plan) : null;
        return new ScheduleAnswer
        {
            Request = request,
            Cars = [.. plan.Cars.Select((car, i) => Of(request, request.Cars[i], plan, car) with
            {
                Explanation = reasons?[i].Explanation,
                Help = reasons?[i].Help ?? [],
                Timers = explains ? TimerSettings.Of(TimerFallbacks.Of(question, plan, i), request.Zone.Zone) : null,
            })],
            Prices = question.Case.Cars[0].Case.Prices,
            Cost = plan.Cost,
            CarbonCost = request.Carbon is null ? null : plan.CarbonCost,
            CostOnArrival = plan.CostOnArrival,
            DearerThanArrival = plan.DearerThanArrival,
            ExtraEndKwhOnArrival = plan.ExtraEndKwhOnArrival,
            ExtraAwayKwhOnArrival = plan.ExtraAwayKwhOnArrival,
            BoundCost = Math.Min(plan.BoundCost, plan.Cost + plan.CarbonCost),
            Gap = plan.Gap,
            GapIsFine = plan.GapIsFine,
            Route = plan.Route,
            LimitReached = plan.LimitReached,
            Warnings = [.. plan.Warnings, .. notices],
            CheckFindings = plan.CheckFindings,
        };
    }

    /// <summary>The plan that keeps what an earlier answer said, where it still serves; and what that shows of the cars.</summary>
    private static (NightPlan Plan, IReadOnlyList<string> Notices) Keeping(ScheduleRequest request, NightPlan plan)
    {
        if (request.Cars.All(c => c.Previous is null))
        {
            return (plan, []);
        }

        var choice = Replanner.Choose(plan, [.. request.Cars.Select(car => Earlier(request, car))]);
        var notices = request.Cars.Zip(choice.Notices)
            .Where(n => n.Second is not null)
            .Select(n => request.Cars.Count == 1 ? n.Second!.Sentence : $"{n.First.Name}: {n.Second!.Sentence}");
        return (choice.Plan, [.. notices]);
    }

    private static EarlierPlan? Earlier(ScheduleRequest request, CarRequest car) => car.Previous is not { } previous ? null : new(
        [.. previous.Windows.Select(w => new ChargingWindow(w.Start, w.End)).OrderBy(w => w.Start)],
        request.Options.KeepUnlessCheaperBy,
        previous.ExpectedState?.Fraction * car.Vehicle.UsableEnergy.KilowattHours);

    private static CarAnswer Of(ScheduleRequest request, CarRequest car, NightPlan plan, CarPlan own)
    {
        var steps = own.Windows
            .Select(w => (IReadOnlyList<StepAnswer>)[.. own.Steps.Where(s => s.Start >= w.Start && s.End <= w.End).Select(s => Step(plan, own, s))])
            .ToArray();
        var (windows, withdrawn) = new WindowIdentity(car, request.Zone.Zone).Name(steps, own.Problem.Boundaries[0], request.AsOf);
        return new CarAnswer
        {
            Car = car,
            CurrentA = own.FullCurrentA,
            PowerKw = own.FullPowerKw,
            Windows = windows,
            Withdrawn = withdrawn,
            Departures = own.Departures,
            Intervals = [.. Enumerable.Range(0, own.Problem.Count).Select(i => Interval(plan, own, i))],
        };
    }

    private static IntervalAnswer Interval(NightPlan plan, CarPlan own, int i)
    {
        var problem = own.Problem;
        return new(
            problem.Boundaries[i], problem.Boundaries[i + 1], problem.Place[i], problem.TemperatureC[i], PriceOf(plan, own, i), own.Shares[i], own.CurrentA[i],
            own.Replay.WallKwh[i], own.Replay.StoredKwh[i], own.Replay.StoredKwh[i + 1]);
    }

    private static double PriceOf(NightPlan plan, CarPlan own, int i) => own.Problem.Place[i] == Place.Home ? plan.EnergyPrice[i] : own.Problem.Price[i];

    /// <summary>What a while at one current takes and costs: an interval's energy is shared among its whiles by their time in it.</summary>
    private static StepAnswer Step(NightPlan plan, CarPlan own, CurrentStep step)
    {
        var problem = own.Problem;
        var (energy, cost) = (0.0, 0.0);
        var first = Array.BinarySearch(problem.Boundaries, step.Start);
        for (var i = first >= 0 ? first : ~first - 1; i < problem.Count && problem.Boundaries[i] < step.End; i++)
        {
            var (start, end) = (Instant.Max(problem.Boundaries[i], step.Start), Instant.Min(problem.Boundaries[i + 1], step.End));
            var on = own.Replay.OnHours[i];
            var share = on > 0 ? Math.Min(1, (end - start).TotalHours / on) : 0;
            var taken = (own.Replay.WallKwh[i] - problem.WarmUpKwh(i)) * share;
            energy += taken;
            cost += taken * PriceOf(plan, own, i);
        }

        return new(step.Start, step.End, step.CurrentA, energy, cost);
    }
}
