using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.TestKit;

/// <summary>Small problems straight from numbers: one stay at home of equal intervals, then one departure.</summary>
public static class Problems
{
    public static readonly Instant Evening = Instant.FromUtc(2026, 1, 14, 18, 0);

    /// <summary>One stay that ends in a departure which asks for <paramref name="requiredKwh"/>.</summary>
    public static ChargingProblem OneNight(
        double[] prices,
        double requiredKwh,
        double initialKwh,
        double wallKw = 7.5,
        double netKw = 7,
        double intervalHours = 1,
        double usableKwh = 1000,
        double endValuePerKwh = 0)
    {
        var n = prices.Length;
        return new ChargingProblem
        {
            Boundaries = [.. Enumerable.Range(0, n + 1).Select(i => Evening + Duration.FromHours(i * intervalHours))],
            Hours = Filled(n, intervalHours),
            Place = [.. Enumerable.Repeat(Place.Home, n)],
            Price = prices,
            MostA = Filled(n, wallKw * 1000 / 240),
            WallKw = Filled(n, wallKw),
            NetKw = Filled(n, netKw),
            TemperatureC = Filled(n, 20),
            DriveKwh = new double[n],
            LowerKwh = new double[n + 1],
            UpperKwh = Filled(n + 1, usableKwh),
            Departures = [new DepartureTarget(n, n, requiredKwh, 0, 0)],
            InitialKwh = initialKwh,
            UsableKwh = usableKwh,
            OrdinaryKwh = usableKwh,
            MinimumKwh = 0,
            EndValuePerKwh = endValuePerKwh,
            Constants = ChargingConstants.Default,
        };
    }

    private static double[] Filled(int count, double value)
    {
        var array = new double[count];
        Array.Fill(array, value);
        return array;
    }
}
