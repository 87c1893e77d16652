using NodaTime;

namespace ScheduleOpt.Core.Driving;

/// <summary>A stop away from home, with or without charging.</summary>
/// <param name="From">Arrival at the stop: the end of the leg before.</param>
/// <param name="Until">Departure from it: the start of the leg after; later than the arrival.</param>
public sealed record TripStop(Instant From, Instant Until)
{
    /// <summary>Wall power offered; zero: none. [kW]</summary>
    public Power ChargingPower { get; init; }

    /// <summary>Price of what is taken there, per kWh at the meter. [currency/kWh]</summary>
    public decimal PricePerKwh { get; init; }

    /// <summary>The share of days on which charging is to be had, in [0, 1]. Below 1 it is ignored tonight and weighted in the year.</summary>
    public double ShareOfDays { get; init; } = 1;
}
