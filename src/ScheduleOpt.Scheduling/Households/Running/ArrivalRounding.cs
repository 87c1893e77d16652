using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Charging from each return on until no more may be stored: what is left where no solution of the programme can be made runnable, so that no car stays off that could charge.</summary>
internal static class ArrivalRounding
{
    /// <summary>On by car and interval, the rules of running kept.</summary>
    public static bool[][] On(HouseholdModel model)
    {
        var n = model.Problem.Count;
        var on = model.Cars.Select(_ => new bool[n]).ToArray();
        for (var c = 0; c < on.Length; c++)
        {
            var (car, problem) = (model.Cars[c], model.Cars[c].Car.Problem);
            var stored = problem.InitialKwh;
            for (var i = 0; i < n; i++)
            {
                var net = problem.Place[i] == Place.Road || car.MostKw[i] <= 0 ? 0 : car.NetKw(i, car.MostKw[i], 1) * problem.Hours[i];
                var fits = net > 0 && stored < problem.UpperKwh[i + 1];
                if (fits && problem.Place[i] == Place.Home)
                {
                    on[c][i] = fits = OnOffRounding.Fits(model, on, c, i);
                }

                stored = Math.Max(problem.LowerKwh[i + 1], Math.Min(problem.UpperKwh[i + 1], stored + (fits ? net : 0) - problem.DriveKwh[i]));
            }

            foreach (var (first, end) in car.Stays)
            {
                WindowRules.Keep(model, on, c, first, end);
            }
        }

        return on;
    }
}
