using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Takes off what would store more than may be: whole intervals and the rules of running can ask for more than there is room for, and one such stay leaves no solution at all.</summary>
internal static class StorageRoom
{
    private const double Rounding = 1e-9;

    /// <summary>On and off with room for what they store at least; the same where there is room.</summary>
    public static bool[][] Keep(HouseholdModel model, bool[][] on)
    {
        var kept = on.Select(car => car.ToArray()).ToArray();
        for (var c = 0; c < kept.Length; c++)
        {
            var problem = model.Cars[c].Car.Problem;
            var stored = problem.InitialKwh;
            var stays = model.Cars[c].Stays.ToDictionary(s => s.First, s => s.End);
            for (var i = 0; i < problem.Count;)
            {
                if (stays.TryGetValue(i, out var end) && end > i)
                {
                    while (Over(model, kept, c, i, end, stored) is { } over && Less(model, kept, c, i, end, over, stored))
                    {
                    }

                    stored = Least(model, kept, c, i, end, stored)[^1];
                    i = end;
                    continue;
                }

                stored = Math.Max(Math.Min(problem.LowerKwh[i + 1], stored), stored - problem.DriveKwh[i]);
                i++;
            }
        }

        return kept;
    }

    /// <summary>The first boundary of a stay at which more than may be would be stored; none: null.</summary>
    private static int? Over(HouseholdModel model, bool[][] on, int c, int first, int end, double stored)
    {
        var (least, upper) = (Least(model, on, c, first, end, stored), model.Cars[c].Car.Problem.UpperKwh);
        for (var i = first; i < end; i++)
        {
            // What is there already is nobody's choice.
            if (least[i - first] > upper[i + 1] + Rounding && least[i - first] > stored + Rounding)
            {
                return i + 1;
            }
        }

        return null;
    }

    /// <summary>What is stored at least at the end of each interval: edges of windows may be off, currents at their least. [kWh]</summary>
    private static double[] Least(HouseholdModel model, bool[][] on, int c, int first, int end, double stored)
    {
        var (car, boundaries) = (model.Cars[c], model.Problem.Boundaries);
        var kwh = new double[end - first];
        var start = first;
        for (var i = first; i < end; i++)
        {
            start = on[c][i] && (i == first || !on[c][i - 1]) ? i : start;
            var edge = (i == start || i + 1 == end || !on[c][i + 1]) && boundaries[i] - boundaries[start] >= car.Car.Rules.LeastOn
                && !(on[c][i] && car.Car.Rules.Adjustable && DecidedPlan.SharesWithOn(model, on, c, i));
            stored += on[c][i] && !edge ? car.NetKw(i, car.LeastKw[i], 1) * model.Problem.Hours[i] : 0;
            stored -= car.Car.Problem.DriveKwh[i];
            kwh[i - first] = stored;
        }

        return kwh;
    }

    /// <summary>Takes the last interval off the window that comes before a boundary, or the window where it would be too short; then one that ends with the stay, which may be short, is tried.</summary>
    private static bool Less(HouseholdModel model, bool[][] on, int c, int first, int end, int boundary, double stored)
    {
        var (boundaries, leastOn) = (model.Problem.Boundaries, model.Cars[c].Car.Rules.LeastOn);
        if (WindowRules.Windows(on[c], first, end).LastOrDefault(w => w.First < boundary) is not { End: > 0 } window)
        {
            return false;
        }

        if (window.End - window.First > 1 && window.End < end && boundaries[window.End - 1] - boundaries[window.First] >= leastOn)
        {
            return !(on[c][window.End - 1] = false);
        }

        if (window.End == end)
        {
            return !(on[c][window.First] = false);
        }

        Array.Fill(on[c], false, window.First, window.End - window.First);
        Last(model, on, c, first, end, stored);
        return true;
    }

    private static void Last(HouseholdModel model, bool[][] on, int c, int first, int end, double stored)
    {
        var (boundaries, rules) = (model.Problem.Boundaries, model.Cars[c].Car.Rules);
        if (WindowRules.Windows(on[c], first, end).LastOrDefault() is { End: > 0 } before && boundaries[end - 1] - boundaries[before.End] < rules.LeastOff)
        {
            return;
        }

        for (var i = end - 1; i >= first && boundaries[end] - boundaries[i] <= rules.LeastOn && !on[c][i] && OnOffRounding.Fits(model, on, c, i); i--)
        {
            on[c][i] = true;
            if (Over(model, on, c, first, end, stored) is not null)
            {
                on[c][i] = false;
                return;
            }
        }
    }
}
