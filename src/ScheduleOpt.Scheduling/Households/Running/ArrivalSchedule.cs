using NodaTime;
using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Windows from the return on, as soon as there is room for what they store: what is left where no solution of a programme can be made runnable, so that no car stays off that could charge.</summary>
/// <remarks>By simulation alone, car after car: it needs no programme, so it is there however little time is left.</remarks>
internal static class ArrivalSchedule
{
    private const double Nothing = 1e-6;

    /// <summary>Powers by car and interval, the rules of running and shared limits kept.</summary>
    public static HouseholdPowers Of(HouseholdModel model)
    {
        var n = model.Problem.Count;
        var powers = new HouseholdPowers(model.Cars.Length, n);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            var problem = model.Cars[c].Car.Problem;
            var stored = problem.InitialKwh;
            var stays = model.Cars[c].Stays.ToDictionary(s => s.First, s => s.End);
            var most = model.Cars[c].RoomKwh;
            var departures = problem.Departures.Select(d => d.Boundary).ToHashSet();
            var floor = 0.0;
            for (var i = 0; i < n;)
            {
                // What a trip lacks is charged on the way, down to the lower bound or to what the car left with.
                floor = departures.Contains(i) ? Math.Min(stored, problem.LowerKwh[i]) : floor;
                if (stays.TryGetValue(i, out var end) && end > i)
                {
                    stored = Stay(model, powers, c, i, end, stored, most);
                    i = end;
                    continue;
                }

                stored = Away(model, powers, c, i, stored, floor, most);
                i++;
            }
        }

        return powers;
    }

    private static double Away(HouseholdModel model, HouseholdPowers powers, int c, int i, double stored, double floor, double[] most)
    {
        var (car, problem) = (model.Cars[c], model.Cars[c].Car.Problem);
        if (problem.Place[i] == Place.Stop && car.MostKw[i] > 0 && car.NetKw(i, car.MostKw[i], 1) * problem.Hours[i] is var net and > 0)
        {
            var share = Math.Clamp((most[i + 1] - stored) / net, 0, 1);
            (powers.Share[c][i], powers.WallKw[c][i]) = (share, share * car.MostKw[i]);
            stored += share * net;
        }

        stored -= problem.DriveKwh[i];
        return problem.Place[i] == Place.Road ? Math.Max(floor, stored) : stored;
    }

    private static double Stay(HouseholdModel model, HouseholdPowers powers, int c, int first, int end, double stored, double[] most)
    {
        var problem = model.Cars[c].Car.Problem;
        var (rules, boundaries) = (model.Cars[c].Car.Rules, model.Problem.Boundaries);
        var (windows, ended, after) = (0, first, stored);
        for (var i = first; i < end && windows < (rules.MostWindows ?? int.MaxValue); i++)
        {
            if (windows > 0 && boundaries[i] - boundaries[ended] < rules.LeastOff)
            {
                continue;
            }

            var (until, kwh) = Charge(model, powers, c, i, end, after, most);
            var brief = until < end && boundaries[until] - boundaries[i] < rules.LeastOn;

            // Later in the stay there is room again where more may be stored for a long trip; for less than an interval of it no window begins.
            if (until == i || brief || (windows > 0 && powers.Share[c][i] < 1))
            {
                Clear(powers, c, i, until);
                continue;
            }

            // An interval in part ends its window: the next one is off.
            (windows, ended, after, i) = (windows + 1, until, kwh, powers.Share[c][until - 1] < 1 ? until : until - 1);
        }

        if (windows == 0 && rules.LeastOn > Duration.Zero)
        {
            // Too short for its rule: only a window that ends with the stay may be.
            var late = end;
            for (var from = end - 1; from >= first && boundaries[end] - boundaries[from] <= rules.LeastOn; from--)
            {
                late = Charge(model, powers, c, from, end, stored, most).Until == end && powers.Share[c][end - 1] >= 1 ? from : late;
                Clear(powers, c, from, end);
            }

            (_, after) = Charge(model, powers, c, late, end, stored, most);
        }

        for (var i = first; i < end; i++)
        {
            after -= problem.DriveKwh[i];
        }

        return after;
    }

    /// <summary>Charges from an interval on until it can't; gives where it ended, and what is stored then.</summary>
    private static (int Until, double StoredKwh) Charge(HouseholdModel model, HouseholdPowers powers, int c, int start, int end, double stored, double[] most)
    {
        var (car, problem, boundaries) = (model.Cars[c], model.Cars[c].Car.Problem, model.Problem.Boundaries);
        for (var i = start; i < end; i++)
        {
            var kw = Kw(model, powers, c, i);
            var net = kw > 0 ? car.NetKw(i, kw, 1) * problem.Hours[i] : 0;
            var share = net > 0 ? Math.Min(1, (most[i + 1] - stored) / net) : 0;
            if (share < Nothing || (share < 1 && boundaries[i] - boundaries[start] < car.Car.Rules.LeastOn))
            {
                return (i, stored);
            }

            (powers.Share[c][i], powers.WallKw[c][i]) = (share, share * kw);
            stored += share * net;
            if (share < 1)
            {
                return (i + 1, stored);
            }
        }

        return (end, stored);
    }

    /// <summary>The power that limits leave beside the cars before it; zero: it can't charge. [kW]</summary>
    private static double Kw(HouseholdModel model, HouseholdPowers powers, int c, int i) =>
        PowerLeft.Kw(model, c, i, other => other < c ? PowerLeft.Level(model, powers, other, i) : 0);

    private static void Clear(HouseholdPowers powers, int c, int from, int until)
    {
        Array.Clear(powers.Share[c], from, until - from);
        Array.Clear(powers.WallKw[c], from, until - from);
    }
}
