using NodaTime;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Checks that a car's steps are the runs of its shares and currents, on whole seconds, in order, at home. Part of <see cref="HouseholdCheck"/>.</summary>
internal static class StepsCheck
{
    // Both edges of a run may be rounded, each by half a second.
    private const double RoundedSeconds = 1.001;
    private const double SameA = 1e-6;

    public static void Add(HouseholdCar car, CarSchedule schedule, List<string> findings)
    {
        var problem = car.Problem;
        var seconds = new double[problem.Count];
        var edges = new int[problem.Count];
        var before = Instant.MinValue;
        foreach (var step in schedule.Steps)
        {
            if (step.Start < before || step.End <= step.Start || IsBroken(step.Start) || IsBroken(step.End)
                || step.Start < problem.Boundaries[0] || step.End > problem.Boundaries[^1])
            {
                findings.Add($"The step from {step.Start} to {step.End} is out of order, or not on whole seconds.");
                return;
            }

            before = step.End;
            var found = Array.BinarySearch(problem.Boundaries, step.Start);
            for (var i = found >= 0 ? found : ~found - 1; i < problem.Count && problem.Boundaries[i] < step.End; i++)
            {
                var inside = Instant.Min(step.End, problem.Boundaries[i + 1]) - Instant.Max(step.Start, problem.Boundaries[i]);
                seconds[i] += inside.TotalSeconds;
                edges[i]++;
                if (inside.TotalSeconds > RoundedSeconds && (problem.Place[i] != Place.Home || Math.Abs(schedule.CurrentA[i] - step.CurrentA) > SameA))
                {
                    findings.Add($"At {problem.Boundaries[i]} a step has {step.CurrentA} A; the schedule has {schedule.CurrentA[i]} A there.");
                }
            }
        }

        for (var i = 0; i < problem.Count; i++)
        {
            var planned = problem.Place[i] == Place.Home ? schedule.Shares[i] * problem.Hours[i] * 3600 : 0;
            if (Math.Abs(planned - seconds[i]) > RoundedSeconds * Math.Max(1, edges[i]))
            {
                findings.Add($"In the interval from {problem.Boundaries[i]} the steps last {seconds[i]} s of the schedule's {planned} s.");
            }
        }
    }

    private static bool IsBroken(Instant instant) => instant.ToUnixTimeTicks() % NodaConstants.TicksPerSecond != 0;
}
