using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>Checks the current of one interval at home against everything that limits it. Part of <see cref="ScheduleCheck"/>.</summary>
internal static class CurrentCheck
{
    private const double SameA = 1e-9;

    /// <summary>Adds what does not hold.</summary>
    public static void At(ChargingProblem problem, ScheduleClaim claim, int interval, double on, List<string> findings)
    {
        var start = problem.Boundaries[interval];
        var span = new Interval(start, problem.Boundaries[interval + 1]);
        var charging = on > 0 ? claim.CurrentA[interval] : 0;
        var warming = problem.WarmUpKw is { } warm && warm[interval] > 0 ? warm[interval] * 1000 / claim.VoltsAcrossPhases : 0;
        var current = charging + warming;
        if (current <= 0)
        {
            if (on > 0)
            {
                findings.Add($"At {start} the car charges with no current.");
            }

            return;
        }

        if (current > claim.ContinuousRatingA + SameA)
        {
            findings.Add($"At {start} the current of {current} A is above the continuous rating of {claim.ContinuousRatingA} A.");
        }

        if (on > 0 && charging < claim.MinimumCurrentA - SameA)
        {
            findings.Add($"At {start} the current of {charging} A is below the car's minimum of {claim.MinimumCurrentA} A.");
        }

        if (on > 0 && claim.WholeAmperes && Math.Abs(charging - Math.Round(charging)) > 1e-6)
        {
            findings.Add($"At {start} the current of {charging} A is not a whole number of amperes.");
        }

        foreach (var hours in claim.NoCharging)
        {
            if (Overlap(hours, span))
            {
                findings.Add($"The car takes power at {start}, in hours without charging.");
            }
        }

        foreach (var limit in claim.CurrentLimits)
        {
            if (current > limit.MostA + SameA && Overlap(limit.Hours, span))
            {
                findings.Add($"At {start} the current of {current} A is above the limit of {limit.MostA} A.");
            }
        }
    }

    private static bool Overlap(Interval a, Interval b) =>
        (!a.HasEnd || a.End > b.Start) && (!a.HasStart || a.Start < b.End) && !(a is { HasStart: true, HasEnd: true } && a.End <= a.Start);
}
