using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Comparison.SetUps;

/// <summary>A year of public charging in equal sessions.</summary>
/// <param name="Session">One session.</param>
/// <param name="Sessions">How many; whole ones, the last may be smaller than the others.</param>
/// <param name="Cost">What all of them cost. [currency]</param>
/// <param name="DetourHours">Time lost by going there. [h]</param>
/// <param name="DetourValue">Its worth by the household's own figure; none without one. Not cash, and never part of the cost. [currency]</param>
public sealed record PublicYear(PublicSession Session, int Sessions, decimal Cost, double DetourHours, decimal? DetourValue)
{
    private const int MostSessions = 100_000;

    /// <summary>The energy that one session fetches: from the minimum to the ordinary limit, at the public meter. [kWh]</summary>
    public static double SessionKwh(Vehicle vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return vehicle.UsableEnergy.KilowattHours * (vehicle.OrdinaryLimit.Fraction - vehicle.Minimum.Fraction) / AwayCharging.PublicEfficiency;
    }

    /// <summary>Works out a year.</summary>
    /// <param name="price">What the place asks for.</param>
    /// <param name="yearMeterKwh">Energy of the year at the public meter; zero or more. [kWh]</param>
    /// <param name="sessionKwh">Energy of a full session; above zero. [kWh]</param>
    /// <param name="powerKw">Mean power of a session; above zero. [kW]</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure outside its range, or more than 100,000 sessions.</exception>
    public static PublicYear Of(PublicPrice price, double yearMeterKwh, double sessionKwh, double powerKw)
    {
        ArgumentNullException.ThrowIfNull(price);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sessionKwh);
        ArgumentOutOfRangeException.ThrowIfNegative(yearMeterKwh);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(yearMeterKwh / sessionKwh, MostSessions, nameof(yearMeterKwh));
        var full = price.Session(sessionKwh, powerKw);
        var whole = (int)Math.Floor((yearMeterKwh / sessionKwh) + 1e-9);
        var rest = yearMeterKwh - (whole * sessionKwh);
        var (sessions, cost) = rest > 1e-6 ? (whole + 1, (whole * full.Cost) + price.Session(rest, powerKw).Cost) : (whole, whole * full.Cost);
        var hours = sessions * (double)price.DetourMinutes / 60;
        return new PublicYear(
            full, sessions, cost, hours, price.TimeValuePerHour is { } value ? Math.Round((decimal)hours * value, 2, MidpointRounding.AwayFromZero) : null);
    }
}
