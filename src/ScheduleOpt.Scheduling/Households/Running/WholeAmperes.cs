using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>How currents are made whole.</summary>
internal enum AmpereRounding
{
    /// <summary>Up: less time at the edges makes up for it.</summary>
    Up,

    /// <summary>To the nearest, what is lost or won carried on.</summary>
    Nearest,

    /// <summary>Down: a peak is not passed.</summary>
    Down,
}

/// <summary>Whole amperes for the cars that want them.</summary>
internal static class WholeAmperes
{
    public static bool Wanted(HouseholdModel model) => model.Cars.Any(c => c.Car.Rules is { Adjustable: true, WholeAmperes: true });

    /// <summary>Powers of whole amperes, by car and interval; NaN where the car has none to set. [kW]</summary>
    public static double[][] Fixed(HouseholdModel model, HouseholdPowers powers, bool[][] on, AmpereRounding rounding)
    {
        var fixedKw = new double[model.Cars.Length][];
        for (var c = 0; c < fixedKw.Length; c++)
        {
            var car = model.Cars[c];
            fixedKw[c] = new double[model.Problem.Count];
            Array.Fill(fixedKw[c], double.NaN);
            if (car.Car.Rules is not { Adjustable: true, WholeAmperes: true })
            {
                continue;
            }

            var kwPerA = car.Car.VoltsAcrossPhases / 1000;
            foreach (var (first, end) in car.Stays)
            {
                var carried = 0.0;
                for (var i = first; i < end; i++)
                {
                    if (!on[c][i] || car.MostKw[i] <= 0)
                    {
                        continue;
                    }

                    var share = powers.Share[c][i];
                    var level = share > 1e-6 ? powers.WallKw[c][i] / share : car.MostKw[i];
                    var hours = model.Problem.Hours[i];
                    var amperes = rounding switch
                    {
                        AmpereRounding.Up => Math.Ceiling((level / kwPerA) - 1e-6),
                        AmpereRounding.Down => Math.Floor((level / kwPerA) + 1e-6),
                        _ => Math.Round((level + (carried / hours)) / kwPerA),
                    };
                    fixedKw[c][i] = Math.Clamp(amperes * kwPerA, car.LeastKw[i], car.MostKw[i]);
                    carried = share > 1 - 1e-6 ? carried + ((level - fixedKw[c][i]) * hours) : carried;
                }
            }
        }

        Within(model, fixedKw, on);
        return fixedKw;
    }

    /// <summary>Takes amperes off where together they would pass a limit, the last car first.</summary>
    private static void Within(HouseholdModel model, double[][] fixedKw, bool[][] on)
    {
        foreach (var limit in model.Limits)
        {
            for (var i = 0; i < model.Problem.Count; i++)
            {
                var over = -limit.Most[i];
                for (var m = 0; m < limit.Cars.Length; m++)
                {
                    var c = limit.Cars[m];
                    over += on[c][i] ? limit.PerKw[m] * (double.IsNaN(fixedKw[c][i]) ? model.Cars[c].LeastKw[i] : fixedKw[c][i]) : 0;
                }

                for (var m = limit.Cars.Length - 1; m >= 0 && over > 1e-9; m--)
                {
                    var c = limit.Cars[m];
                    var kwPerA = model.Problem.Cars[c].VoltsAcrossPhases / 1000;
                    while (over > 1e-9 && on[c][i] && !double.IsNaN(fixedKw[c][i]) && fixedKw[c][i] - kwPerA >= model.Cars[c].LeastKw[i] - 1e-9)
                    {
                        fixedKw[c][i] -= kwPerA;
                        over -= kwPerA * limit.PerKw[m];
                    }
                }
            }
        }
    }
}
