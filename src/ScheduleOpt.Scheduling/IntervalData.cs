using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>The arrays of a problem that say something of its intervals, while they are worked out. See <see cref="ChargingProblem"/>.</summary>
internal sealed class IntervalData
{
    public IntervalData(Instant[] boundaries)
    {
        var n = boundaries.Length - 1;
        (Hours, Place, Price, MostA) = (new double[n], new Place[n], new double[n], new double[n]);
        (WallKw, NetKw, TemperatureC, DriveKwh) = (new double[n], new double[n], new double[n], new double[n]);
        for (var i = 0; i < n; i++)
        {
            Hours[i] = (boundaries[i + 1] - boundaries[i]).TotalHours;
        }
    }

    private IntervalData(ChargingProblem problem)
    {
        (Hours, Place, Price, MostA) = (problem.Hours, problem.Place, problem.Price, problem.MostA);
        (WallKw, NetKw, TemperatureC, DriveKwh) = (problem.WallKw, problem.NetKw, problem.TemperatureC, problem.DriveKwh);
    }

    public int Count => Hours.Length;

    /// <summary>Those of a problem that has been built.</summary>
    public static IntervalData Of(ChargingProblem problem) => new(problem);

    public double[] Hours { get; }

    public Place[] Place { get; }

    public double[] Price { get; }

    public double[] MostA { get; }

    public double[] WallKw { get; }

    public double[] NetKw { get; }

    public double[] TemperatureC { get; }

    public double[] DriveKwh { get; }
}
