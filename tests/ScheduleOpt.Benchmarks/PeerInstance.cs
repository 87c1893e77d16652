using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Benchmarks;

/// <summary>The peer's instance as arrays, and the same as our problem.</summary>
internal sealed record PeerInstance(
    double Hours,
    double WallKw,
    double UsableKwh,
    double StartKwh,
    double LowestKwh,
    double HighestKwh,
    double RequiredKwh,
    double[] Price,
    bool[] Home,
    double[] RateKw,
    double[] DriveKwh,
    int[] Departures)
{
    /// <summary>Volts and amperes that give the wall power, for the schedule check.</summary>
    public const double Volts = 240;

    public double Amperes => WallKw * 1000 / Volts;

    /// <summary>Our problem in memory: what both sides start from.</summary>
    /// <param name="temperatureOne">Whether the instance has one temperature: then its rate is a plain efficiency of 0.88.</param>
    public ChargingProblem ToProblem(bool temperatureOne)
    {
        var n = Price.Length;
        var start = Instant.FromUtc(2026, 1, 1, 0, 0);
        var constants = temperatureOne
            ? new ChargingConstants { ConversionEfficiency = 0.88, OverheadKw = 0, HeatingKwPerKelvin = 0 }
            : ChargingConstants.Default;
        var home = Home;
        var departures = new List<DepartureTarget>();
        foreach (var interval in Departures)
        {
            var leaves = interval + 1;
            var returns = leaves;
            while (returns < n && !home[returns])
            {
                returns++;
            }

            departures.Add(new DepartureTarget(leaves, returns, RequiredKwh, DriveKwh[leaves..returns].Sum(), 0));
        }

        // Instances may begin or end away: the peer asks for nothing there.
        return new ChargingProblem
        {
            Boundaries = [.. Enumerable.Range(0, n + 1).Select(i => start + Duration.FromHours(Hours * i))],
            Hours = Filled(n, Hours),
            Place = [.. home.Select(h => h ? Place.Home : Place.Road)],
            Price = Price,
            MostA = [.. home.Select(h => h ? Amperes : 0)],
            WallKw = [.. home.Select(h => h ? WallKw : 0)],
            NetKw = [.. home.Select((h, i) => h ? RateKw[i] : 0)],
            TemperatureC = [.. RateKw.Select(r => temperatureOne ? 20 : TemperatureOf(r))],
            DriveKwh = DriveKwh,
            LowerKwh = Filled(n + 1, Math.Min(LowestKwh, StartKwh)),
            UpperKwh = Filled(n + 1, HighestKwh),
            Departures = [.. departures],
            InitialKwh = StartKwh,
            UsableKwh = UsableKwh,
            OrdinaryKwh = HighestKwh,
            MinimumKwh = LowestKwh,
            Constants = constants,
        };
    }

    /// <summary>The temperature behind a rate, so that the schedule check can derive the rate anew. [degC]</summary>
    private double TemperatureOf(double rateKw)
    {
        var heating = (0.93 * WallKw) - 0.22 - rateKw;
        return heating <= 0 ? 20 : 6 - (heating / 0.05);
    }

    private static double[] Filled(int count, double value)
    {
        var array = new double[count];
        Array.Fill(array, value);
        return array;
    }
}
