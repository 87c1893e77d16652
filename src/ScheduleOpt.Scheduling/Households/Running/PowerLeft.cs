using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>The power that shared limits leave a car beside what others take.</summary>
internal static class PowerLeft
{
    /// <summary>The most it can have in an interval, whole amperes where they are asked for; zero: it can't charge. [kW, wall]</summary>
    /// <param name="model">The household.</param>
    /// <param name="c">The car.</param>
    /// <param name="i">The interval.</param>
    /// <param name="takenKw">What another car takes while it charges; zero where it does not. [kW, wall]</param>
    public static double Kw(HouseholdModel model, int c, int i, Func<int, double> takenKw)
    {
        var car = model.Cars[c];
        var kw = car.MostKw[i];
        foreach (var limit in model.Limits)
        {
            var at = Array.IndexOf(limit.Cars, c);
            if (at < 0)
            {
                continue;
            }

            var left = limit.Most[i];
            for (var m = 0; m < limit.Cars.Length; m++)
            {
                left -= limit.Cars[m] == c ? 0 : limit.PerKw[m] * takenKw(limit.Cars[m]);
            }

            kw = Math.Min(kw, left / limit.PerKw[at]);
        }

        kw = car.Whole(kw);
        return kw > 0 && kw >= car.LeastKw[i] - 1e-9 ? Math.Max(kw, car.LeastKw[i]) : 0;
    }

    /// <summary>What a car takes at home while it charges; zero where it does not. [kW, wall]</summary>
    public static double Level(HouseholdModel model, HouseholdPowers powers, int c, int i) =>
        powers.Share[c][i] > CurrentSteps.Nothing && model.Problem.Cars[c].Problem.Place[i] == Place.Home ? powers.WallKw[c][i] / powers.Share[c][i] : 0;
}
