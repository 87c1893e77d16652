using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Draws up the answer of what the cars do: money, departures, warnings.</summary>
internal static class NightAccount
{
    /// <summary>The plan of some runs.</summary>
    /// <param name="question">The question.</param>
    /// <param name="problem">Its problem.</param>
    /// <param name="schedule">Its schedule and bound.</param>
    /// <param name="runs">What each car does.</param>
    /// <param name="arrival">What each would do by charging on arrival.</param>
    /// <param name="findings">What the checks found.</param>
    public static NightPlan Of(
        NightQuestion question,
        HouseholdProblem problem,
        HouseholdSchedule schedule,
        IReadOnlyList<CarRun> runs,
        IReadOnlyList<CarRun> arrival,
        IReadOnlyList<string> findings)
    {
        var cars = runs.Select((run, c) => Of(question.Case, problem.Cars[c], schedule.Cars[c], run)).ToArray();
        var charging = HouseholdBill.ChargingKw(problem, [.. runs.Select(r => r.Replay)]);
        var (bill, carbon) = BillOf(problem, runs, charging);
        var onArrival = BillOf(problem, arrival, HouseholdBill.ChargingKw(problem, [.. arrival.Select(r => r.Replay)]));
        var plan = new NightPlan
        {
            Question = question,
            Problem = problem,
            Schedule = schedule,
            Cars = cars,
            Cost = bill,
            CarbonCost = carbon,
            EnergyPrice = EnergyPrice(problem, charging),
            CostOnArrival = onArrival.Bill,
            ExtraEndKwhOnArrival = arrival.Sum(r => r.Replay.StoredKwh[^1]) - runs.Sum(r => r.Replay.StoredKwh[^1]),
            ExtraAwayKwhOnArrival = arrival.Sum(r => r.Replay.TripShortfallKwh.Sum()) - runs.Sum(r => r.Replay.TripShortfallKwh.Sum()),
            SearchGap = schedule.Gap,
            BoundCost = Bound(question, problem, schedule, runs) + problem.WarmUpCost + EndValue(problem, runs) - Burned(problem, runs),
            Warnings = NightWarnings.Of(question.Case, cars, findings),
            CheckFindings = findings,
        };
        return plan with
        {
            DearerThanArrival = DearerThanArrival.Sentence(
                problem,
                runs,
                arrival,
                (new(bill, carbon, Burned(problem, runs)), new(onArrival.Bill, onArrival.Carbon, Burned(problem, arrival))),
                plan.Gap,
                question.Case.Cars[0].Case.Prices.Currency),
        };
    }

    /// <summary>What is proven of what the runs leave unmet: where the taper leaves more than the schedule does, that may cost less than the schedule's own bound.</summary>
    private static double Bound(NightQuestion question, HouseholdProblem problem, HouseholdSchedule schedule, IReadOnlyList<CarRun> runs)
    {
        // What windows on whole seconds leave is less. [kWh]
        const double counts = 0.01;
        var misses = runs.Select((run, c) => Missed(run.Replay.TripShortfallKwh, run.Replay.TargetShortfallKwh) - Missed(schedule.Cars[c].TripShortfallKwh, schedule.Cars[c].TargetShortfallKwh));
        return misses.Any(kwh => kwh > counts)
            && HouseholdBound.With(problem, [.. runs.Select(r => r.Replay.TripShortfallKwh)], [.. runs.Select(r => r.Replay.TargetShortfallKwh)], question.Order) is { } bound
            ? Math.Min(bound, schedule.Bound)
            : schedule.Bound;

        static double Missed(double[] trips, double[] targets) => trips.Sum() + targets.Sum();
    }

    /// <summary>What runs add to the bill, stops and warming included, and to the carbon price. [currency]</summary>
    public static (double Bill, double Carbon) BillOf(HouseholdProblem problem, IReadOnlyList<CarRun> runs, double[] chargingKw)
    {
        var cost = HouseholdBill.Of(problem, chargingKw);
        var stops = 0.0;
        for (var c = 0; c < runs.Count; c++)
        {
            var car = problem.Cars[c].Problem;
            for (var i = 0; i < car.Count; i++)
            {
                stops += car.Place[i] == Place.Stop ? runs[c].Replay.WallKwh[i] * car.Price[i] : 0;
            }
        }

        return (cost.Bill + stops + problem.WarmUpCost - problem.WarmUpCarbonCost, cost.Carbon + problem.WarmUpCarbonCost);
    }

    private static CarPlan Of(HouseholdCase question, HouseholdCar car, CarSchedule planned, CarRun run)
    {
        var own = question.Cars.First(c => c.Name == car.Name).Case;
        var shares = new double[car.Problem.Count];
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = run.Replay.OnHours[i] / car.Problem.Hours[i];
        }

        return new CarPlan
        {
            Case = own,
            Car = car,
            Planned = planned,
            Windows = run.Windows,
            Steps = run.Schedule.Steps,
            FullCurrentA = Math.Min(own.Supply?.ChargingCurrentA(own.Vehicle) ?? 0, question.SharedCircuitA ?? double.PositiveInfinity),
            CurrentA = run.Schedule.CurrentA,
            Shares = shares,
            Replay = run.Replay,
            Departures = Departures(own, car.Problem, run.Replay),
            ColdHours = ColdHours.Of(car.Problem, run.Replay.OnHours),
        };
    }

    private static double EndValue(HouseholdProblem problem, IReadOnlyList<CarRun> runs) => runs.Zip(problem.Cars, (run, car) =>
        car.Problem.EndValuePerKwh * Math.Min(car.Problem.OrdinaryKwh, run.Replay.StoredKwh[^1])).Sum();

    /// <summary>What the objective counts beside the bill where energy has a price below zero: what is taken and not stored. [currency]</summary>
    private static double Burned(HouseholdProblem problem, IReadOnlyList<CarRun> runs)
    {
        var sum = 0.0;
        for (var i = 0; i < problem.Count; i++)
        {
            for (var c = 0; problem.ImportPrice[i] < 0 && c < runs.Count; c++)
            {
                var car = problem.Cars[c].Problem;
                var spent = car.Constants.OverheadKw + ChargingModel.HeatingKw(car.TemperatureC[i], car.Constants);
                sum += car.Place[i] == Place.Home
                    ? -problem.ImportPrice[i] * spent / car.Constants.ConversionEfficiency * runs[c].Replay.OnHours[i]
                    : 0;
            }
        }

        return sum;
    }

    private static double[] EnergyPrice(HouseholdProblem problem, double[] chargingKw)
    {
        var price = (double[])problem.ImportPrice.Clone();
        for (var i = 0; i < price.Length; i++)
        {
            var spare = Math.Max(0, problem.SolarKw[i] - problem.HouseKw[i]);
            if (spare > 0 && chargingKw[i] > 0)
            {
                var solar = Math.Min(spare, chargingKw[i]);
                price[i] = ((solar * problem.ExportPrice[i]) + ((chargingKw[i] - solar) * problem.ImportPrice[i])) / chargingKw[i];
            }
        }

        return price;
    }

    private static List<DepartureForecast> Departures(ChargingCase question, ChargingProblem problem, ReplayResult replay)
    {
        var forecasts = new List<DepartureForecast>(problem.Departures.Length);
        for (var k = 0; k < problem.Departures.Length; k++)
        {
            var departure = problem.Departures[k];
            var at = problem.Boundaries[departure.Boundary];
            var consumption = question.Vehicle.Consumption;
            var perKm = consumption.ReferenceKwhPerKm * consumption.Factor(question.Temperatures.At(at));
            forecasts.Add(new DepartureForecast(
                at,
                departure.RequiredKwh,
                replay.StoredKwh[departure.Boundary],
                Called(replay.TripShortfallKwh[k]),
                Called(replay.TargetShortfallKwh[k]),
                Called(replay.TripShortfallKwh[k]) / perKm,
                ReadyTime.Of(question, problem, replay, k))
            {
                MarginKept = departure.MarginKept && replay.StoredKwh[departure.DueBoundary] >= departure.RequiredKwh - NightPlanner.NegligibleKwh,
            });
        }

        return forecasts;
    }

    /// <summary>Windows begin and end on a whole second: what that leaves is no shortfall.</summary>
    private static double Called(double shortfallKwh) => shortfallKwh > NightPlanner.NegligibleKwh ? shortfallKwh : 0;
}
