using NodaTime;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Scheduling;

/// <summary>A leg or a stop of a trip with its numbers worked out.</summary>
internal sealed record AwaySpan(Instant Start, Instant End, Place Place, double DriveKwh, double WallKw, double Price)
{
    public double Hours { get; } = (End - Start).TotalHours;

    /// <summary>The legs and stops of a trip in order.</summary>
    public static IEnumerable<AwaySpan> Of(Trip trip, ChargingCase question)
    {
        foreach (var leg in trip.Legs)
        {
            var energy = question.Vehicle.Consumption.For(leg.Distance, question.Temperatures.At(leg.TemperatureAt));
            yield return new AwaySpan(leg.Start, leg.End, Place.Road, energy.KilowattHours, 0, 0);
            if (leg.Stop is { } stop)
            {
                yield return new AwaySpan(stop.From, stop.Until, Place.Stop, 0, PowerAt(stop, question.Stops), (double)stop.PricePerKwh);
            }
        }
    }

    private static double PowerAt(TripStop stop, StopReading reading) => reading switch
    {
        StopReading.WeightedByShare => stop.ChargingPower.Kilowatts * stop.ShareOfDays,
        _ => stop.ShareOfDays >= 1 ? stop.ChargingPower.Kilowatts : 0,
    };
}
