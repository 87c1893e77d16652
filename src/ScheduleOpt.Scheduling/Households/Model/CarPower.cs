using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>What one car can take in each interval: the powers between which it charges, and what charging spends on the car itself.</summary>
/// <remarks>While it charges at power P it stores eta * P less overhead and heating. Powers at home are already held to what the limits it shares leave a car alone.</remarks>
internal sealed class CarPower
{
    private CarPower(HouseholdCar car, double[] leastKw, double[] mostKw, double[] overheadKw)
    {
        Car = car;
        LeastKw = leastKw;
        MostKw = mostKw;
        OverheadKw = overheadKw;
        RoomKwh = Room(car.Problem);
        Stays = [.. StaysOf(car.Problem)];
        var ahead = car.Problem.Departures;
        FirstDeparture = ahead.Length > 0 ? ahead[0].Boundary : car.Problem.Count;
        IntegersUntil = ahead.Length > 1 ? ahead[1].Boundary : car.Problem.Count;
    }

    public HouseholdCar Car { get; }

    /// <summary>Least power while it charges. [kW, wall]</summary>
    public double[] LeastKw { get; }

    /// <summary>Most power while it charges; 0 where it can't. [kW, wall]</summary>
    public double[] MostKw { get; }

    /// <summary>Overhead and heating while it charges. [kW, battery side]</summary>
    public double[] OverheadKw { get; }

    /// <summary>What may be stored at each boundary so that no later bound is passed without charging. [kWh]</summary>
    public double[] RoomKwh { get; }

    /// <summary>The stays at home: first interval and the boundary of the end.</summary>
    public (int First, int End)[] Stays { get; }

    /// <summary>Boundary of the first departure, or the end.</summary>
    public int FirstDeparture { get; }

    /// <summary>Boundary of the second departure: later stays are planned anew before they matter, and need no integers.</summary>
    public int IntegersUntil { get; }

    public bool Adjustable => Car.Rules.Adjustable;

    public double Efficiency => Car.Problem.Constants.ConversionEfficiency;

    /// <summary>What an interval stores. [kW]</summary>
    public double NetKw(int interval, double wallKw, double share) => (Efficiency * wallKw) - (OverheadKw[interval] * share);

    /// <summary>A power brought down to whole amperes where they are asked for. [kW, wall]</summary>
    public double Whole(double wallKw) =>
        Car.Rules is { Adjustable: true, WholeAmperes: true } && Car.VoltsAcrossPhases / 1000 is var kwPerA ? Math.Floor((wallKw / kwPerA) + 1e-6) * kwPerA : wallKw;

    /// <summary>The powers of a car, where limits leave so much to it when it charges alone.</summary>
    public static CarPower Of(HouseholdCar car, int index, IReadOnlyList<PowerLimit> limits)
    {
        var problem = car.Problem;
        var n = problem.Count;
        var (least, most, overhead) = (new double[n], new double[n], new double[n]);
        var kwPerA = car.VoltsAcrossPhases / 1000;
        var whole = car.Rules is { Adjustable: true, WholeAmperes: true };
        var leastA = whole ? Math.Ceiling(car.LeastA - 1e-9) : car.LeastA;
        for (var i = 0; i < n; i++)
        {
            if (problem.Place[i] == Place.Stop)
            {
                least[i] = most[i] = problem.NetKw[i] > 0 ? problem.WallKw[i] : 0;
                overhead[i] = (problem.Constants.ConversionEfficiency * most[i]) - problem.NetKw[i];
                continue;
            }

            if (problem.Place[i] != Place.Home)
            {
                continue;
            }

            overhead[i] = problem.Constants.OverheadKw + ChargingModel.HeatingKw(problem.TemperatureC[i], problem.Constants);
            var full = kwPerA * car.MostA[i];
            var alone = full;
            foreach (var limit in limits)
            {
                alone = Math.Min(alone, limit.AloneKw(index, i));
            }

            if (!car.Rules.Adjustable)
            {
                least[i] = most[i] = alone >= full - 1e-9 ? full : 0;
            }
            else
            {
                most[i] = whole ? Math.Floor((alone / kwPerA) + 1e-9) * kwPerA : alone;
                least[i] = Math.Max(kwPerA * leastA, overhead[i] / problem.Constants.ConversionEfficiency);
                least[i] = whole ? Math.Ceiling((least[i] / kwPerA) - 1e-9) * kwPerA : least[i];
            }

            if (most[i] < (kwPerA * leastA) - 1e-9 || most[i] < least[i] - 1e-9 || problem.Constants.ConversionEfficiency * most[i] <= overhead[i])
            {
                least[i] = most[i] = 0;
            }

            least[i] = Math.Min(least[i], most[i]);
        }

        return new(car, least, most, overhead);
    }

    private static double[] Room(ChargingProblem problem)
    {
        double[] most = [.. problem.UpperKwh];
        for (var b = problem.Count - 1; b >= 0; b--)
        {
            most[b] = Math.Min(most[b], most[b + 1] + problem.DriveKwh[b]);
        }

        return most;
    }

    private static IEnumerable<(int First, int End)> StaysOf(ChargingProblem problem)
    {
        var start = 0;
        foreach (var departure in problem.Departures)
        {
            if (departure.Boundary > start)
            {
                yield return (start, departure.Boundary);
            }

            start = Math.Max(start, departure.ReturnBoundary);
        }

        if (start < problem.Count)
        {
            yield return (start, problem.Count);
        }
    }
}
