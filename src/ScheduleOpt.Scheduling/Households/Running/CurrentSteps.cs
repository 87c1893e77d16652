using NodaTime;
using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Powers and shares at home as runs of one current, on whole seconds.</summary>
internal static class CurrentSteps
{
    /// <summary>The largest share that is none.</summary>
    public const double Nothing = 1e-9;

    /// <summary>Current of each interval while the car charges. [A]</summary>
    public static double[] Currents(CarPower car, double[] kw, double[] share)
    {
        var currents = new double[kw.Length];
        for (var i = 0; i < currents.Length; i++)
        {
            if (car.Car.Problem.Place[i] == Place.Home && share[i] > Nothing)
            {
                var amperes = kw[i] / share[i] * 1000 / car.Car.VoltsAcrossPhases;
                var whole = Math.Round(amperes);
                currents[i] = Math.Min(car.Car.MostA[i], Math.Abs(amperes - whole) < 1e-6 ? whole : amperes);
            }
        }

        return currents;
    }

    /// <summary>The steps. Part of an interval lies beside a neighbour that is on; on its own it begins with the interval.</summary>
    public static List<CurrentStep> Of(CarPower car, double[] currents, double[] share)
    {
        var boundaries = car.Car.Problem.Boundaries;
        var steps = new List<CurrentStep>();
        foreach (var (first, end) in car.Stays)
        {
            for (var i = first; i < end; i++)
            {
                if (currents[i] <= 0)
                {
                    continue;
                }

                var length = (boundaries[i + 1] - boundaries[i]) * Math.Min(1, share[i]);
                var late = share[i] < 1 - Nothing && i + 1 < end && currents[i + 1] > 0 && !(i > first && currents[i - 1] > 0);
                var start = late ? OnSecond(boundaries[i + 1] - length) : boundaries[i];
                var stop = late || share[i] >= 1 - Nothing ? boundaries[i + 1] : OnSecond(boundaries[i] + length);
                Add(steps, start, stop, currents[i]);
            }
        }

        return steps;
    }

    private static void Add(List<CurrentStep> steps, Instant start, Instant stop, double current)
    {
        if (stop <= start)
        {
            return;
        }

        if (steps.Count > 0 && steps[^1].End == start && Math.Abs(steps[^1].CurrentA - current) < 1e-6)
        {
            steps[^1] = steps[^1] with { End = stop };
        }
        else
        {
            steps.Add(new(start, stop, current));
        }
    }

    // A hub switches on the second.
    private static Instant OnSecond(Instant instant) =>
        Instant.FromUnixTimeSeconds((long)Math.Round((instant - NodaConstants.UnixEpoch).TotalSeconds));
}
