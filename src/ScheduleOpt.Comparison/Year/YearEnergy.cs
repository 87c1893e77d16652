namespace ScheduleOpt.Comparison.Year;

/// <summary>A year's energy of the car. [kWh]</summary>
/// <param name="HomeWallKwh">Taken at the meter at home.</param>
/// <param name="HomeStoredKwh">What of it reached the battery.</param>
/// <param name="DriveKwh">What driving took, battery side, shortfall included.</param>
/// <param name="TripShortfallKwh">What of it the battery could not give, battery side.</param>
public sealed record YearEnergy(double HomeWallKwh, double HomeStoredKwh, double DriveKwh, double TripShortfallKwh)
{
    /// <summary>What conversion, overhead and battery heating took at home. [kWh]</summary>
    public double HomeLossKwh => HomeWallKwh - HomeStoredKwh;
}
