using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>A schedule that can be run, with what it costs and leaves unmet, both worked out from powers alone.</summary>
internal sealed class RunnableSchedule
{
    private RunnableSchedule(HouseholdPowers powers, double[][] stored, HouseholdShortfalls shortfalls, double bill, double carbon, double objective) =>
        (Powers, StoredKwh, Shortfalls, BillCost, CarbonCost, Objective) = (powers, stored, shortfalls, bill, carbon, objective);

    /// <summary>By car and interval.</summary>
    public HouseholdPowers Powers { get; }

    /// <summary>By car and boundary. [kWh]</summary>
    public double[][] StoredKwh { get; }

    public HouseholdShortfalls Shortfalls { get; }

    public double BillCost { get; }

    public double CarbonCost { get; }

    /// <summary>Cost as step 2 counts it, less the value of what is stored at the end. [currency]</summary>
    public double Objective { get; }

    /// <summary>Works it out; a trip shortfall beyond what the trip needs at once comes in at its end.</summary>
    public static RunnableSchedule Of(HouseholdModel model, HouseholdCost cost, HouseholdPowers powers, double[][] tripKwh)
    {
        DropRoundingErrors(powers);
        var problem = model.Problem;
        var n = problem.Count;
        var home = new double[n];
        var (stops, burned, value) = (0.0, 0.0, 0.0);
        var (stored, shortfalls) = Unmet(model, powers, tripKwh);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            var car = model.Cars[c];
            var own = car.Car.Problem;
            for (var i = 0; i < n; i++)
            {
                var (kw, share) = (powers.WallKw[c][i], powers.Share[c][i]);
                if (own.Place[i] == Place.Home)
                {
                    home[i] += kw;
                    burned += problem.ImportPrice[i] < 0 ? -problem.ImportPrice[i] * car.OverheadKw[i] / car.Efficiency * share * problem.Hours[i] : 0;
                }
                else if (own.Place[i] == Place.Stop)
                {
                    stops += own.Price[i] * kw * problem.Hours[i];
                    burned += own.Price[i] < 0 ? -own.Price[i] * car.OverheadKw[i] / car.Efficiency * share * problem.Hours[i] : 0;
                }
            }

            value += own.EndValuePerKwh * Math.Min(own.OrdinaryKwh, stored[c][^1]);
        }

        var (bill, carbon) = cost.AtHome(home);
        return new(powers, stored, shortfalls, bill + stops, carbon, bill + stops + carbon + burned - value);
    }

    /// <summary>What powers store, by car and boundary, and leave unmet.</summary>
    public static (double[][] StoredKwh, HouseholdShortfalls Shortfalls) Unmet(HouseholdModel model, HouseholdPowers powers, double[][] tripKwh)
    {
        var below = 0.0;
        var shortfalls = HouseholdShortfalls.None(model);
        var stored = new double[model.Cars.Length][];
        for (var c = 0; c < stored.Length; c++)
        {
            var car = model.Cars[c];
            stored[c] = Path(car, powers.WallKw[c], powers.Share[c], tripKwh[c], shortfalls.TripKwh[c], shortfalls.TargetKwh[c], ref below);
            shortfalls.FinalKwh[c] = Math.Max(0, (car.Car.Problem.FinalKwh ?? 0) - stored[c][^1]);
        }

        return (stored, shortfalls with { BelowKwh = below });
    }

    /// <summary>Whether no car ever stores more than it may.</summary>
    public bool KeepsUpperBounds(HouseholdModel model)
    {
        const double room = 1e-5;
        for (var c = 0; c < StoredKwh.Length; c++)
        {
            var upper = model.Cars[c].Car.Problem.UpperKwh;
            for (var b = 1; b < upper.Length; b++)
            {
                if (StoredKwh[c][b] > upper[b] + room)
                {
                    return false;
                }
            }
        }

        return true;
    }

    /// <summary>A share that is nothing but a rounding error of the solver is none: what is left has a current.</summary>
    private static void DropRoundingErrors(HouseholdPowers powers)
    {
        for (var c = 0; c < powers.Share.Length; c++)
        {
            for (var i = 0; i < powers.Share[c].Length; i++)
            {
                if (powers.Share[c][i] <= CurrentSteps.Nothing)
                {
                    (powers.Share[c][i], powers.WallKw[c][i]) = (0, 0);
                }
            }
        }
    }

    /// <summary>Whether it is better than another: by the strict order of what goes unmet, then by the objective.</summary>
    public bool IsBetterThan(RunnableSchedule? other, HouseholdModel model, ShortfallOrder order) =>
        other is null || Shortfalls.Compare(other.Shortfalls, model, order) is var compared && (compared < 0 || (compared == 0 && Objective < other.Objective - 1e-9));

    private static double[] Path(
        CarPower car, double[] kw, double[] share, double[] allowed, double[] trip, double[] target, ref double below)
    {
        var problem = car.Car.Problem;
        var stored = new double[problem.Count + 1];
        stored[0] = problem.InitialKwh;
        var (departure, floor) = (-1, 0.0);
        for (var i = 0; i <= problem.Count; i++)
        {
            while (departure + 1 < problem.Departures.Length && problem.Departures[departure + 1].Boundary == i)
            {
                target[++departure] = Math.Max(0, problem.Departures[departure].RequiredKwh - stored[i]);
                floor = Math.Min(stored[i], problem.LowerKwh[i]);
            }

            if (i == problem.Count)
            {
                break;
            }

            var after = stored[i] + (problem.Place[i] == Place.Road ? 0 : car.NetKw(i, kw[i], share[i]) * problem.Hours[i]) - problem.DriveKwh[i];
            if (problem.Place[i] == Place.Road && departure >= 0)
            {
                var last = problem.Departures[departure].ReturnBoundary == i + 1;
                var due = Math.Max(0, floor - after);
                var given = last ? Math.Max(due, allowed[departure] - trip[departure]) : due;

                // No more than the trip's own energy, and none for a rounding error.
                given = given < 1e-9 ? 0 : given;
                trip[departure] += given;
                after += given;
            }

            stored[i + 1] = after;
            below += Math.Max(0, problem.LowerKwh[i + 1] - after) is var missing && missing > 1e-7 ? missing : 0;
        }

        return stored;
    }
}
