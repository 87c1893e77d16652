using NodaTime;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Scheduling;

/// <summary>Warming before departures as a load at home: its power, and what it spares the first leg.</summary>
/// <remarks>Its power is that of the energy asked over the length asked. Where the supply gives less, or the car comes home later, less is taken and
/// as much less is spared.</remarks>
internal sealed class WarmUpLoad
{
    private WarmUpLoad(double[]? powerKw, double[] sparedKwh) => (PowerKw, SparedKwh) = (powerKw, sparedKwh);

    /// <summary>Power in each interval; none: no warming at all. [kW, wall]</summary>
    public double[]? PowerKw { get; }

    /// <summary>Energy spared the first leg of each trip. [kWh]</summary>
    public double[] SparedKwh { get; }

    /// <summary>When it begins: further cuts of the grid.</summary>
    public static IEnumerable<Instant> Starts(ChargingCase question, Trip[] trips) =>
        question.WarmUp is { } warmUp ? trips.Select(t => t.Departure - warmUp.Length) : [];

    public static WarmUpLoad Of(ChargingCase question, Trip[] trips, Instant[] boundaries, HomeCurrent current)
    {
        var spared = new double[trips.Length];
        if (question.WarmUp is not { WallKwh: > 0 } warmUp || warmUp.Length <= Duration.Zero || question.Supply is null)
        {
            return new(null, spared);
        }

        double[]? power = null;
        var askedKw = warmUp.WallKwh / warmUp.Length.TotalHours;
        for (var k = 0; k < trips.Length; k++)
        {
            var departure = trips[k].Departure;
            if (question.Temperatures.At(departure) >= warmUp.BelowC)
            {
                continue;
            }

            var home = k > 0 ? trips[k - 1].Return : question.Start;
            var taken = 0.0;
            for (var i = Array.BinarySearch(boundaries, departure) - 1; i >= 0; i--)
            {
                if (boundaries[i] < home || boundaries[i] < departure - warmUp.Length)
                {
                    break;
                }

                power ??= new double[boundaries.Length - 1];
                power[i] = Math.Min(askedKw, current.VoltsAcrossPhases * current.At(boundaries[i]) / 1000);
                taken += power[i] * (boundaries[i + 1] - boundaries[i]).TotalHours;
            }

            spared[k] = warmUp.SparedKwh * Math.Min(1, taken / warmUp.WallKwh);
        }

        return new(power, spared);
    }
}
