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
        return [.. problem.Cars.Zip(schedule.Cars, Run)];
    }

    private static ReplayResult Run(HouseholdCar car, CarSchedule schedule)
    {
        var problem = car.Problem;
        var wall = new double[problem.Count];
        for (var i = 0; i < wall.Length; i++)
        {
            wall[i] = problem.Place[i] == Place.Home ? car.VoltsAcrossPhases * schedule.CurrentA[i] / 1000 : problem.WallKw[i];
        }

        return Replay.Run(problem, schedule.Shares, schedule.TripShortfallKwh, wall);
    }
}
