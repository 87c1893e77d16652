using NodaTime;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Scheduling;

/// <summary>A leg or a stop of a trip with its numbers worked out.</summary>
/// <param name="Start">When it begins.</param>
/// <param name="End">When it ends.</param>
/// <param name="Place">On the road, or at a stop.</param>
/// <param name="DriveKwh">Mean energy that the battery gives for it. [kWh]</param>
/// <param name="SparedKwh">Energy that warming before the departure spared it, left out of <paramref name="DriveKwh"/>. [kWh]</param>
/// <param name="WallKw">Power offered at a stop. [kW]</param>
/// <param name="Price">Price there. [currency/kWh]</param>
internal sealed record AwaySpan(Instant Start, Instant End, Place Place, double DriveKwh, double SparedKwh, double WallKw, double Price)
{
    public double Hours { get; } = (End - Start).TotalHours;

    /// <summary>Energy at a factor on what driving needs; what was spared is spared once. [kWh]</summary>
    public double NeedKwh(double factor) => Math.Max(0, ((DriveKwh + SparedKwh) * factor) - SparedKwh);

    /// <summary>The legs and stops of a trip in order.</summary>
    /// <param name="trip">The trip.</param>
    /// <param name="question">Car and temperatures.</param>
    /// <param name="sparedKwh">Energy that warming spares its first leg. [kWh]</param>
    public static IEnumerable<AwaySpan> Of(Trip trip, ChargingCase question, double sparedKwh = 0)
    {
        foreach (var leg in trip.Legs)
        {
            var energy = question.Vehicle.Consumption.For(leg.Distance, question.Temperatures.At(leg.TemperatureAt)).KilowattHours;
            var spared = Math.Min(energy, sparedKwh);
            sparedKwh = 0;
            yield return new AwaySpan(leg.Start, leg.End, Place.Road, energy - spared, spared, 0, 0);
            if (leg.Stop is { } stop)
            {
                yield return new AwaySpan(stop.From, stop.Until, Place.Stop, 0, 0, PowerAt(stop, question.Stops), (double)stop.PricePerKwh);
            }
        }
    }

    private static double PowerAt(TripStop stop, StopReading reading) => reading switch
    {
        StopReading.WeightedByShare => stop.ChargingPower.Kilowatts * stop.ShareOfDays,
        _ => stop.ShareOfDays >= 1 ? stop.ChargingPower.Kilowatts : 0,
    };
}
