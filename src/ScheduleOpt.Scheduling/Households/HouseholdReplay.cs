namespace ScheduleOpt.Scheduling.Households;

/// <summary>Runs a household's schedule through the full physics: each car with its own current in each interval.</summary>
public static class HouseholdReplay
{
    /// <summary>What happens to each car, in the order of the cars. <see cref="HouseholdBill.ChargingKw"/> makes of it what the bill is worked out from.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="schedule">Its schedule.</param>
    public static IReadOnlyList<ReplayResult> Run(HouseholdProblem problem, HouseholdSchedule schedule)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(schedule);
        return [.. problem.Cars.Zip(schedule.Cars, (car, own) => Run(car, own.CurrentA, own.Shares, own.TripShortfallKwh))];
    }

    /// <summary>What happens to one car.</summary>
    /// <param name="car">The car.</param>
    /// <param name="currentA">Current of each interval in which it charges at home. [A, per phase]</param>
    /// <param name="shares">Share of each interval in which it charges.</param>
    /// <param name="awayKwh">Energy planned to come from away charging on each departure's trip. [kWh]</param>
    public static ReplayResult Run(HouseholdCar car, double[] currentA, double[] shares, double[] awayKwh)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(currentA);
        var problem = car.Problem;
        var wall = new double[problem.Count];
        for (var i = 0; i < wall.Length; i++)
        {
            wall[i] = problem.Place[i] == Place.Home ? car.VoltsAcrossPhases * currentA[i] / 1000 : problem.WallKw[i];
        }

        return Replay.Run(problem, shares, awayKwh, wall);
    }
}
