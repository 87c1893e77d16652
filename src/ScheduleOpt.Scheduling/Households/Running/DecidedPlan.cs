using NodaTime;
using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>On and off by intervals as a plan in which powers, and the edges of windows, are still open.</summary>
internal static class DecidedPlan
{
    public static OnOffPlan Of(Segments unmerged, bool[][] on, double[][]? fixedKw = null)
    {
        var model = unmerged.Model;
        var modes = new OnOff[on.Length][];
        for (var c = 0; c < on.Length; c++)
        {
            var car = model.Cars[c];
            modes[c] = new OnOff[unmerged.Count];
            for (var i = 0; i < modes[c].Length; i++)
            {
                if (car.Car.Problem.Place[i] == Place.Stop && car.MostKw[i] > 0)
                {
                    modes[c][i] = OnOff.Relaxed;
                }
            }

            foreach (var (first, end) in car.Stays)
            {
                foreach (var window in WindowRules.Windows(on[c], first, end))
                {
                    AddWindow(model, on, c, window, modes[c]);
                }
            }
        }

        return new(unmerged, modes, fixedKw);
    }

    private static void AddWindow(HouseholdModel model, bool[][] on, int c, (int First, int End) window, OnOff[] modes)
    {
        var rules = model.Cars[c].Car.Rules;
        var start = model.Problem.Boundaries[window.First];
        for (var i = window.First; i < window.End; i++)
        {
            var edge = (i == window.First || i == window.End - 1) && model.Problem.Boundaries[i] - start >= rules.LeastOn;
            modes[i] = edge && !(rules.Adjustable && SharesWithOn(model, on, c, i)) ? OnOff.Edge : OnOff.On;
        }
    }

    /// <summary>Whether a car is on beside another of its circuit: an adjustable one is then on throughout, so that its current is known.</summary>
    public static bool SharesWithOn(HouseholdModel model, bool[][] on, int c, int i) =>
        model.Limits.Any(l => l.Cars.Contains(c) && !l.IsSlack(model.Cars, i) && l.Cars.Any(o => o != c && on[o][i]));
}
