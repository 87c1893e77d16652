using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Comparison.Seasons;

/// <summary>Nights a week on which the car must be plugged in to keep up with mean driving.</summary>
/// <param name="PerWeek">Nights a week, not rounded; zero without driving, infinite where a night gives nothing; above 7 not even every night
/// keeps up.</param>
/// <param name="ByBattery">What the battery alone would ask for: weekly energy over the energy between minimum and ordinary limit.</param>
/// <param name="ByPower">What the supply alone would ask for: weekly energy over what a night gives.</param>
public sealed record PlugNights(double PerWeek, double ByBattery, double ByPower)
{
    private const double Tolerance = 1e-9;

    /// <summary>Whether plugging in every night keeps up with mean driving.</summary>
    public bool KeepsUp => PerWeek <= 7 + Tolerance;

    /// <summary>Whole nights a week, at most 7; none where not even every night keeps up.</summary>
    public int? WholeNights => KeepsUp ? (int)Math.Ceiling(PerWeek - Tolerance) : null;

    /// <summary>Works it out.</summary>
    /// <remarks>N = 7 * drive / min(E * (ordinary limit - minimum), energy of a night).</remarks>
    /// <param name="vehicle">The car.</param>
    /// <param name="driveKwhPerDay">Mean energy of driving, battery side; zero or more. [kWh a day]</param>
    /// <param name="nightKwh">What a night gives the battery; zero or more. [kWh]</param>
    public static PlugNights Of(Vehicle vehicle, double driveKwhPerDay, double nightKwh)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentOutOfRangeException.ThrowIfNegative(driveKwhPerDay);
        ArgumentOutOfRangeException.ThrowIfNegative(nightKwh);
        var band = vehicle.UsableEnergy.KilowattHours * (vehicle.OrdinaryLimit.Fraction - vehicle.Minimum.Fraction);
        var (byBattery, byPower) = (Nights(band), Nights(nightKwh));
        return new PlugNights(Math.Max(byBattery, byPower), byBattery, byPower);

        double Nights(double kwh) => driveKwhPerDay == 0 ? 0 : 7 * driveKwhPerDay / kwh;
    }
}
