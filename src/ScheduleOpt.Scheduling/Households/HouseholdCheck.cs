using NodaTime;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Checks a household's schedule against physics, limits, running rules and bill with code of its own; knows nothing of the solver.</summary>
/// <remarks>Runs after every solve, in production too. Each car goes through <see cref="ScheduleCheck"/>; then what the cars share, how each runs, and the cost.</remarks>
public static class HouseholdCheck
{
    /// <summary>How far a cost may differ, as a share of it; below a cost of 1, this itself. [currency]</summary>
    public const double MoneyTolerance = 1e-6;

    private const double SamePower = 1e-6;

    /// <summary>Every way in which the schedule does not hold, in plain words; empty if it does.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="schedule">The schedule.</param>
    /// <param name="question">Continuous ratings, hours without charging and limits by hours as they were asked; none: the problem's currents are taken for them.</param>
    public static IReadOnlyList<string> Findings(HouseholdProblem problem, HouseholdSchedule schedule, HouseholdCase? question = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(schedule);
        if (schedule.Cars.Count != problem.Cars.Count)
        {
            return [$"The schedule has {schedule.Cars.Count} cars, the problem {problem.Cars.Count}."];
        }

        var findings = new List<string>();
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            var car = problem.Cars[c];
            var own = new List<string>(ScheduleCheck.Findings(car.Problem, Claim(car, schedule.Cars[c], question?.Cars[c].Case)));
            StepsCheck.Add(car, schedule.Cars[c], own);
            RunningCheck.Add(car, schedule.Cars[c], own);
            findings.AddRange(own.Select(f => $"{car.Name}: {f}"));
        }

        SharedCheck.Add(problem, [.. schedule.Cars.Select(c => c.Steps)], findings);
        if (findings.Count == 0)
        {
            AddImport(problem, ChargingKw(problem, schedule), findings);
            AddCost(problem, schedule, findings);
        }

        return findings;
    }

    /// <summary>The same of what a schedule became in the replay with the full physics.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="cars">Each car's steps, with current and share of every interval.</param>
    /// <param name="replays">What happens to each.</param>
    /// <param name="begunEarlier">The most by which each car begins a window earlier for its taper.</param>
    /// <param name="question">The question.</param>
    public static IReadOnlyList<string> FindingsAfterReplay(
        HouseholdProblem problem,
        IReadOnlyList<CarSchedule> cars,
        IReadOnlyList<ReplayResult> replays,
        IReadOnlyList<NodaTime.Duration> begunEarlier,
        HouseholdCase question)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(cars);
        ArgumentNullException.ThrowIfNull(replays);
        ArgumentNullException.ThrowIfNull(begunEarlier);
        ArgumentNullException.ThrowIfNull(question);
        var findings = new List<string>();
        for (var c = 0; c < cars.Count; c++)
        {
            var (car, replay) = (problem.Cars[c], replays[c]);
            var claim = Claim(car, cars[c], question.Cars[c].Case) with
            {
                OnHours = replay.OnHours,
                StoredKwh = replay.StoredKwh,
                TripShortfallKwh = replay.TripShortfallKwh,
                TargetShortfallKwh = replay.TargetShortfallKwh,
                Cost = replay.CostAt(car.Problem),
                WithTaper = true,
                BegunEarlier = begunEarlier[c],
            };
            var own = new List<string>(ScheduleCheck.Findings(car.Problem, claim));
            StepsCheck.Add(car, cars[c], own);
            RunningCheck.Add(car, cars[c], own);
            findings.AddRange(own.Select(f => $"{car.Name}: {f}"));
        }

        SharedCheck.Add(problem, [.. cars.Select(c => c.Steps)], findings);
        AddImport(problem, HouseholdBill.ChargingKw(problem, replays), findings);
        return findings;
    }

    private static ScheduleClaim Claim(HouseholdCar car, CarSchedule schedule, ChargingCase? question)
    {
        var problem = car.Problem;
        var (on, cost) = (new double[problem.Count], problem.WarmUpCost());
        for (var i = 0; i < on.Length; i++)
        {
            on[i] = schedule.Shares[i] * problem.Hours[i];
            cost += on[i] * problem.Price[i] * (problem.Place[i] == Place.Home ? car.VoltsAcrossPhases * schedule.CurrentA[i] / 1000 : problem.WallKw[i]);
        }

        return new ScheduleClaim
        {
            VoltsAcrossPhases = question?.Supply?.VoltsAcrossPhases ?? car.VoltsAcrossPhases,
            CurrentA = schedule.CurrentA,
            ContinuousRatingA = question is null ? MostOf(car) : question.Supply?.ContinuousRatingA ?? 0,
            MinimumCurrentA = question?.Vehicle.MinimumCurrentA ?? car.LeastA,
            WholeAmperes = car.Rules.WholeAmperes,
            NoCharging = question?.NoCharging ?? [],
            CurrentLimits = question?.CurrentLimits ?? [],
            OnHours = on,
            StoredKwh = schedule.StoredKwh,
            TripShortfallKwh = schedule.TripShortfallKwh,
            TargetShortfallKwh = schedule.TargetShortfallKwh,
            Cost = cost,
            WithTaper = false,
        };
    }

    private static double MostOf(HouseholdCar car) => car.Problem.WarmUpKw is null
        ? car.MostA.Max()
        : Enumerable.Range(0, car.MostA.Length).Max(i => car.MostA[i] + (car.Problem.WarmUpKw[i] * 1000 / car.VoltsAcrossPhases));

    private static double[] ChargingKw(HouseholdProblem problem, HouseholdSchedule schedule)
    {
        var sum = new double[problem.Count];
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            var (car, own) = (problem.Cars[c], schedule.Cars[c]);
            for (var i = 0; i < sum.Length; i++)
            {
                sum[i] += car.Problem.Place[i] == Place.Home ? own.Shares[i] * car.VoltsAcrossPhases * own.CurrentA[i] / 1000 : 0;
            }
        }

        return sum;
    }

    private static void AddImport(HouseholdProblem problem, double[] charging, List<string> findings)
    {
        if (problem.ImportLimitKw is not { } limit)
        {
            return;
        }

        for (var i = 0; i < charging.Length; i++)
        {
            var without = problem.HouseKw[i] - problem.SolarKw[i];
            if (charging[i] > SamePower && without + charging[i] > Math.Max(limit, without) + SamePower)
            {
                findings.Add($"At {problem.Boundaries[i]} the house imports {without + charging[i]} kW; its limit is {limit} kW.");
            }
        }
    }

    private static void AddCost(HouseholdProblem problem, HouseholdSchedule schedule, List<string> findings)
    {
        var cost = HouseholdBill.Of(problem, ChargingKw(problem, schedule));
        var (stops, value) = (0.0, 0.0);
        var burnsNothing = problem.ImportPrice.All(p => p >= 0);
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            var (car, own) = (problem.Cars[c].Problem, schedule.Cars[c]);
            for (var i = 0; i < car.Count; i++)
            {
                if (car.Place[i] == Place.Stop)
                {
                    stops += own.Shares[i] * car.WallKw[i] * car.Price[i] * car.Hours[i];
                    burnsNothing &= car.Price[i] >= 0;
                }
            }

            value += car.EndValuePerKwh * Math.Min(car.OrdinaryKwh, own.StoredKwh[^1]);
        }

        Compare("bill", cost.Bill + stops, schedule.BillCost, findings);
        Compare("cost", cost.Total + stops, schedule.Cost, findings);

        // Below a price of zero the objective counts energy as stored, not as taken.
        if (burnsNothing)
        {
            Compare("objective", cost.Total + stops - value, schedule.Objective, findings);
        }
    }

    private static void Compare(string what, double found, double claimed, List<string> findings)
    {
        if (!(Math.Abs(found - claimed) <= MoneyTolerance * Math.Max(1, Math.Abs(found))))
        {
            findings.Add(FormattableString.Invariant($"The {what} is {found}; {claimed} was claimed."));
        }
    }
}
