namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>Step 1 in time order as if no other car shared a limit: each car by itself, in one sweep that charges as early and as much as its bounds let it.</summary>
/// <remarks>That path has at every boundary the most energy any path can have, so each departure in turn has its least shortfall (<see cref="Shortfalls.InTimeOrder"/>). Cars together can
/// leave no less; where a schedule leaves no more, step 1 is done.</remarks>
internal static class ShortfallsAlone
{
    // Less than a solver leaves of a shortfall that is none.
    private const double Nothing = 1e-9;

    /// <summary>The least shortfalls of each car alone, in time order.</summary>
    public static HouseholdShortfalls Of(HouseholdModel model)
    {
        var least = HouseholdShortfalls.None(model);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            Sweep(model.Cars[c], least.TripKwh[c], least.TargetKwh[c], out least.FinalKwh[c]);
        }

        return least;
    }

    private static void Sweep(CarPower car, double[] trip, double[] target, out double final)
    {
        var problem = car.Car.Problem;
        var stored = problem.InitialKwh;
        var departure = -1;
        for (var b = 0; ; b++)
        {
            while (departure + 1 < target.Length && problem.Departures[departure + 1].Boundary == b)
            {
                target[++departure] = Missing(problem.Departures[departure].RequiredKwh - stored);
            }

            if (b == problem.Count)
            {
                break;
            }

            var road = problem.Place[b] == Place.Road;
            stored += (road ? 0 : car.NetKw(b, car.MostKw[b], car.MostKw[b] > 0 ? 1 : 0) * problem.Hours[b]) - problem.DriveKwh[b];
            if (problem.LowerKwh[b + 1] - stored is var missing and > Nothing)
            {
                stored += missing;
                if (road && departure >= 0)
                {
                    trip[departure] += missing;
                }
            }

            stored = Math.Min(stored, problem.UpperKwh[b + 1]);
        }

        final = Missing((problem.FinalKwh ?? 0) - stored);
    }

    private static double Missing(double kwh) => kwh > Nothing ? kwh : 0;
}
