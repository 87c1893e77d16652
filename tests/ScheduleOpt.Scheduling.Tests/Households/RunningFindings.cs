using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Every way in which a schedule breaks the rules of its problem; with code of its own.</summary>
internal static class RunningFindings
{
    public static List<string> Of(HouseholdProblem problem, HouseholdSchedule schedule)
    {
        var findings = new List<string>();
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            AddCurrents(problem.Cars[c], schedule.Cars[c], findings);
            AddEnergy(problem.Cars[c], schedule.Cars[c], schedule.Route, findings);
            if (schedule.Route != SolveRoute.Shares)
            {
                AddRules(problem, problem.Cars[c], schedule.Cars[c], findings);
            }
        }

        AddLimits(problem, schedule, findings);
        var (bill, carbon) = NaiveHouseholdCost.Of(problem, HomeKw(problem, schedule));
        bill += StopCost(problem, schedule);
        Near(bill, schedule.BillCost, 1e-6 * Math.Max(1, Math.Abs(bill)), "bill", findings);
        Near(bill + carbon, schedule.Cost, 1e-6 * Math.Max(1, Math.Abs(bill)), "cost", findings);
        if (schedule.Route != SolveRoute.Shares && schedule.Objective < schedule.Bound - (1e-6 * Math.Max(1, Math.Abs(schedule.Bound))))
        {
            findings.Add($"The objective {schedule.Objective} is below the bound {schedule.Bound}.");
        }

        return findings;
    }

    public static double[] HomeKw(HouseholdProblem problem, HouseholdSchedule schedule)
    {
        var kw = new double[problem.Count];
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            for (var i = 0; i < kw.Length; i++)
            {
                kw[i] += problem.Cars[c].VoltsAcrossPhases * schedule.Cars[c].CurrentA[i] / 1000 * schedule.Cars[c].Shares[i] * (problem.Cars[c].Problem.Place[i] == Place.Home ? 1 : 0);
            }
        }

        return kw;
    }

    private static double StopCost(HouseholdProblem problem, HouseholdSchedule schedule)
    {
        var sum = 0.0;
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            var car = problem.Cars[c].Problem;
            for (var i = 0; i < car.Count; i++)
            {
                sum += car.Place[i] == Place.Stop ? schedule.Cars[c].Shares[i] * car.WallKw[i] * car.Hours[i] * car.Price[i] : 0;
            }
        }

        return sum;
    }

    private static void AddCurrents(HouseholdCar car, CarSchedule schedule, List<string> findings)
    {
        for (var i = 0; i < car.MostA.Length; i++)
        {
            var (amperes, share) = (schedule.CurrentA[i], schedule.Shares[i]);
            var home = car.Problem.Place[i] == Place.Home;
            if (amperes > car.MostA[i] || (!home && amperes > 0) || share < 0 || share > 1 + 1e-9 || (car.Problem.Place[i] == Place.Road && share > 0))
            {
                findings.Add($"{car.Name}, {i}: {amperes} A of {car.MostA[i]} for {share}.");
            }

            if (amperes > 0 && (amperes < car.LeastA - 1e-6 || (!car.Rules.Adjustable && amperes < car.MostA[i] - 1e-6)))
            {
                findings.Add($"{car.Name}, {i}: {amperes} A is too little.");
            }

            if (car.Rules is { Adjustable: true, WholeAmperes: true } && amperes != Math.Round(amperes))
            {
                findings.Add($"{car.Name}, {i}: {amperes} A is not whole.");
            }
        }

        // The steps are the same on whole seconds.
        var hours = schedule.Steps.Sum(s => s.Hours * s.CurrentA);
        var planned = Enumerable.Range(0, car.MostA.Length).Sum(i => schedule.CurrentA[i] * schedule.Shares[i] * car.Problem.Hours[i]);
        Near(planned, hours, 0.03 * (1 + schedule.Steps.Count), $"{car.Name}: ampere-hours of steps", findings);
        for (var s = 1; s < schedule.Steps.Count; s++)
        {
            if (schedule.Steps[s].Start < schedule.Steps[s - 1].End)
            {
                findings.Add($"{car.Name}: steps overlap at {schedule.Steps[s].Start}.");
            }
        }
    }

    private static void AddEnergy(HouseholdCar car, CarSchedule schedule, SolveRoute route, List<string> findings)
    {
        // A simple night's windows begin and end on a whole second.
        var room = route == SolveRoute.Shares ? ScheduleCheck.LimitTolerance : 1e-5;
        var problem = car.Problem;
        var model = problem.Constants;
        var stored = problem.InitialKwh;
        var trip = new double[problem.Departures.Length];
        var departure = -1;
        for (var i = 0; i <= problem.Count; i++)
        {
            Near(stored, schedule.StoredKwh[i], 1e-6, $"{car.Name}: stored at {i}", findings);
            if (stored > problem.UpperKwh[i] + room)
            {
                findings.Add($"{car.Name}: {stored} kWh at {i} is above {problem.UpperKwh[i]}.");
            }

            while (departure + 1 < problem.Departures.Length && problem.Departures[departure + 1].Boundary == i)
            {
                departure++;
                Near(Math.Max(0, problem.Departures[departure].RequiredKwh - stored), schedule.TargetShortfallKwh[departure], 1e-6, $"{car.Name}: target {departure}", findings);
            }

            if (i == problem.Count)
            {
                break;
            }

            if (problem.Place[i] == Place.Home)
            {
                var kw = car.VoltsAcrossPhases * schedule.CurrentA[i] / 1000;
                var rate = (kw * model.ConversionEfficiency) - model.OverheadKw - ChargingModel.HeatingKw(problem.TemperatureC[i], model);
                stored += schedule.Shares[i] > 1e-9 && kw > 0 ? rate * schedule.Shares[i] * problem.Hours[i] : 0;
            }
            else
            {
                stored += (problem.NetKw[i] * schedule.Shares[i] * problem.Hours[i]) - problem.DriveKwh[i];
                if (departure >= 0 && schedule.StoredKwh[i + 1] > stored + 1e-7)
                {
                    trip[departure] += schedule.StoredKwh[i + 1] - stored;
                    stored = schedule.StoredKwh[i + 1];
                }
            }
        }

        for (var k = 0; k < trip.Length; k++)
        {
            Near(trip[k], schedule.TripShortfallKwh[k], 1e-5, $"{car.Name}: trip {k}", findings);
        }
    }

    private static void AddRules(HouseholdProblem problem, HouseholdCar car, CarSchedule schedule, List<string> findings)
    {
        var at = 0;
        while (at < problem.Count)
        {
            var end = at;
            while (end < problem.Count && car.Problem.Place[end] == Place.Home && (end == at || car.Problem.Departures.All(d => d.Boundary != end)))
            {
                end++;
            }

            if (end > at)
            {
                AddStay(problem, car, schedule, at, end, findings);
            }

            at = Math.Max(end, at + 1);
        }
    }

    private static void AddStay(HouseholdProblem problem, HouseholdCar car, CarSchedule schedule, int first, int end, List<string> findings)
    {
        var windows = new List<(int First, int End)>();
        for (var i = first; i < end; i++)
        {
            if (schedule.Shares[i] > 1e-6)
            {
                if (i > first && schedule.Shares[i - 1] > 1e-6)
                {
                    windows[^1] = (windows[^1].First, i + 1);
                    if (i + 1 < end && schedule.Shares[i + 1] > 1e-6 && schedule.Shares[i] < 1 - 1e-6)
                    {
                        findings.Add($"{car.Name}: {i} is on for {schedule.Shares[i]} between two that are on.");
                    }
                }
                else
                {
                    windows.Add((i, i + 1));
                }
            }
        }

        if (car.Rules.MostWindows is { } most && windows.Count > most)
        {
            findings.Add($"{car.Name}: {windows.Count} windows.");
        }

        for (var w = 0; w < windows.Count; w++)
        {
            var (from, until) = windows[w];
            for (var i = from; i < end && problem.Boundaries[i] - problem.Boundaries[from] < car.Rules.LeastOn; i++)
            {
                if (schedule.Shares[i] < 1 - 1e-6)
                {
                    findings.Add($"{car.Name}: the window at {from} is too short.");
                    break;
                }
            }

            if (w > 0 && problem.Boundaries[from] - problem.Boundaries[windows[w - 1].End] < car.Rules.LeastOff)
            {
                findings.Add($"{car.Name}: the pause before {from} is too short.");
            }
        }
    }

    private static void AddLimits(HouseholdProblem problem, HouseholdSchedule schedule, List<string> findings)
    {
        for (var i = 0; i < problem.Count; i++)
        {
            foreach (var circuit in problem.Circuits)
            {
                var amperes = circuit.Cars.Sum(c => schedule.Cars[c].Shares[i] > 1e-6 ? schedule.Cars[c].CurrentA[i] : 0);
                if (amperes > circuit.MostA + 1e-5)
                {
                    findings.Add($"{amperes} A on a circuit of {circuit.MostA} at {i}.");
                }
            }

            if (problem.ImportLimitKw is { } limit)
            {
                var kw = Enumerable.Range(0, problem.Cars.Count)
                    .Sum(c => schedule.Cars[c].Shares[i] > 1e-6 ? problem.Cars[c].VoltsAcrossPhases * schedule.Cars[c].CurrentA[i] / 1000 : 0);
                if (kw > Math.Max(0, limit - problem.HouseKw[i] + problem.SolarKw[i]) + 1e-5)
                {
                    findings.Add($"Cars take {kw} kW beside the house's {problem.HouseKw[i]} at {i}; the limit is {limit}.");
                }
            }
        }
    }

    private static void Near(double expected, double actual, double room, string what, List<string> findings)
    {
        if (!(Math.Abs(expected - actual) <= room))
        {
            findings.Add($"{what}: {actual} instead of {expected}.");
        }
    }
}
