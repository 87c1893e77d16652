using NodaTime;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Checks how a car runs: number of windows, least on and off times, least and fixed current. Part of <see cref="HouseholdCheck"/>.</summary>
internal static class RunningCheck
{
    private const double SameA = 1e-6;
    private const double SameKwh = 0.01;
    private static readonly Duration Rounding = Duration.FromSeconds(2);

    public static void Add(HouseholdCar car, CarSchedule schedule, List<string> findings)
    {
        var problem = car.Problem;
        for (var i = 0; i < problem.Count; i++)
        {
            if (problem.Place[i] != Place.Home || schedule.Shares[i] <= 0)
            {
                continue;
            }

            var current = schedule.CurrentA[i];
            if (current > car.MostA[i] + SameA || current < car.LeastA - SameA || (!car.Rules.Adjustable && Math.Abs(current - car.MostA[i]) > SameA))
            {
                findings.Add($"At {problem.Boundaries[i]} the current of {current} A is not one that the car can have: {car.LeastA} to {car.MostA[i]} A.");
                return;
            }
        }

        var stayStart = 0;
        for (var k = 0; k <= problem.Departures.Length; k++)
        {
            var stayEnd = k < problem.Departures.Length ? problem.Departures[k].Boundary : problem.Count;
            if (stayEnd > stayStart)
            {
                var required = k < problem.Departures.Length ? problem.Departures[k].RequiredKwh : double.PositiveInfinity;
                InStay(car, schedule, stayStart, stayEnd, required, findings);
            }

            stayStart = k < problem.Departures.Length ? problem.Departures[k].ReturnBoundary : stayEnd;
        }
    }

    private static void InStay(HouseholdCar car, CarSchedule schedule, int stayStart, int stayEnd, double requiredKwh, List<string> findings)
    {
        var (rules, problem) = (car.Rules, car.Problem);
        var (start, end) = (problem.Boundaries[stayStart], problem.Boundaries[stayEnd]);
        var windows = new List<(Instant Start, Instant End)>();
        foreach (var step in schedule.Steps.Where(s => s.Start >= start && s.End <= end))
        {
            if (windows.Count > 0 && windows[^1].End == step.Start)
            {
                windows[^1] = (windows[^1].Start, step.End);
            }
            else
            {
                windows.Add((step.Start, step.End));
            }
        }

        if (windows.Count > rules.MostWindows)
        {
            findings.Add($"The stay from {start} has {windows.Count} windows; {rules.MostWindows} are allowed.");
        }

        for (var w = 0; w < windows.Count; w++)
        {
            // The rules count whole intervals, so that a part of one may be missing.
            var (on, off) = (windows[w].End - windows[w].Start, w > 0 ? windows[w].Start - windows[w - 1].End : Duration.MaxValue);
            if (on + PartAt(problem, windows[w].End) + Rounding < rules.LeastOn && windows[w].End < end && !IsServed(problem, schedule, windows[w].End, requiredKwh))
            {
                findings.Add($"The window from {windows[w].Start} lasts {on}, less than {rules.LeastOn}.");
            }

            if (w > 0 && off + PartAt(problem, windows[w].Start) + Rounding < rules.LeastOff)
            {
                findings.Add($"The pause before {windows[w].Start} lasts {off}, less than {rules.LeastOff}.");
            }
        }
    }

    /// <summary>Length of the interval in which an instant lies, or that ends there.</summary>
    private static Duration PartAt(ChargingProblem problem, Instant instant)
    {
        var i = IntervalBefore(problem, instant);
        return problem.Boundaries[i + 1] - problem.Boundaries[i];
    }

    private static int IntervalBefore(ChargingProblem problem, Instant instant)
    {
        var found = Array.BinarySearch(problem.Boundaries, instant);
        return Math.Clamp((found >= 0 ? found : ~found) - 1, 0, problem.Count - 1);
    }

    /// <summary>Whether the car has at an instant what its departure asks for, or is at its limit.</summary>
    private static bool IsServed(ChargingProblem problem, CarSchedule schedule, Instant instant, double requiredKwh)
    {
        var after = IntervalBefore(problem, instant) + 1;
        return schedule.StoredKwh[after] >= Math.Min(requiredKwh, problem.UpperKwh[after]) - SameKwh;
    }
}
