using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>One way in which cars that share limits can charge: as early as they can, the neediest first.</summary>
/// <remarks>In each interval first the cars below their minimum in their order, then those whose next wish is not met, the earliest due first, then the others up
/// to their upper bounds. A car that charges for a part of an interval holds its current for all of it, so that the path can be run as it is.</remarks>
internal sealed class JointPath
{
    private readonly HouseholdProblem problem;
    private readonly int[] next;
    private readonly double[] floor;

    private JointPath(HouseholdProblem problem)
    {
        this.problem = problem;
        next = new int[problem.Cars.Count];
        floor = new double[problem.Cars.Count];
        StoredKwh = [.. problem.Cars.Select(_ => new double[problem.Count + 1])];
        GainKwh = [.. problem.Cars.Select(_ => new double[problem.Count])];
    }

    /// <summary>Of each car, the stored energy at each boundary. [kWh]</summary>
    public double[][] StoredKwh { get; }

    /// <summary>Of each car, what it could have stored in each interval at home with the current it had. [kWh]</summary>
    public double[][] GainKwh { get; }

    public static JointPath Of(HouseholdProblem problem)
    {
        var path = new JointPath(problem);
        for (var c = 0; c < problem.Cars.Count; c++)
        {
            path.StoredKwh[c][0] = problem.Cars[c].Problem.InitialKwh;
        }

        for (var i = 0; i < problem.Count; i++)
        {
            path.Step(i);
        }

        return path;
    }

    private void Step(int i)
    {
        var cars = problem.Cars;
        for (var c = 0; c < cars.Count; c++)
        {
            var departures = cars[c].Problem.Departures;
            while (next[c] < departures.Length && departures[next[c]].Boundary <= i)
            {
                floor[c] = Math.Min(StoredKwh[c][i], cars[c].Problem.LowerKwh[i]);
                next[c]++;
            }
        }

        var leftA = problem.Circuits.Select(k => k.LeftA(i)).ToArray();
        var house = problem.HouseKw[i] - problem.SolarKw[i];
        var leftKw = problem.ImportLimitKw is { } limit ? Math.Max(0, limit - house) : double.PositiveInfinity;
        foreach (var c in Enumerable.Range(0, cars.Count).OrderBy(c => Urgency(c, i)).ThenBy(c => c))
        {
            var car = cars[c].Problem;
            var stored = StoredKwh[c][i];
            var room = Math.Max(0, car.UpperKwh[i + 1] - stored);
            switch (car.Place[i])
            {
                case Place.Road:
                    StoredKwh[c][i + 1] = Math.Max(floor[c], stored - car.DriveKwh[i]);
                    break;
                case Place.Stop:
                    StoredKwh[c][i + 1] = stored + Math.Min(room, car.NetKw[i] * car.Hours[i]);
                    break;
                default:
                    var current = Current(c, i, leftA, leftKw);
                    var wall = cars[c].VoltsAcrossPhases * current / 1000;
                    GainKwh[c][i] = ChargingModel.NetRateKw(wall, car.TemperatureC[i], car.Constants) * car.Hours[i];
                    StoredKwh[c][i + 1] = stored + Math.Min(room, GainKwh[c][i]);
                    if (room > 0 && GainKwh[c][i] > 0)
                    {
                        Take(c, current, leftA);
                        leftKw -= wall;
                    }

                    break;
            }
        }
    }

    /// <summary>Boundary by which energy is due; -1 below the minimum, beyond all where nothing is.</summary>
    private int Urgency(int c, int i)
    {
        var car = problem.Cars[c].Problem;
        if (StoredKwh[c][i] < car.MinimumKwh)
        {
            return -1;
        }

        return next[c] < car.Departures.Length && StoredKwh[c][i] < car.Departures[next[c]].RequiredKwh
            ? car.Departures[next[c]].DueBoundary
            : int.MaxValue;
    }

    private double Current(int c, int i, double[] leftA, double leftKw)
    {
        var car = problem.Cars[c];
        var most = Math.Min(car.MostA[i], leftKw * 1000 / car.VoltsAcrossPhases);
        for (var k = 0; k < leftA.Length; k++)
        {
            most = problem.Circuits[k].Cars.Contains(c) ? Math.Min(most, leftA[k]) : most;
        }

        if (!car.Rules.Adjustable)
        {
            return most >= car.MostA[i] - 1e-9 ? car.MostA[i] : 0;
        }

        most = car.Rules.WholeAmperes ? Math.Floor(most + 1e-9) : most;
        return most < car.LeastA ? 0 : most;
    }

    private void Take(int c, double current, double[] leftA)
    {
        for (var k = 0; k < leftA.Length; k++)
        {
            leftA[k] -= problem.Circuits[k].Cars.Contains(c) ? current : 0;
        }
    }
}
