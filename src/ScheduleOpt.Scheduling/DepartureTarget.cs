namespace ScheduleOpt.Scheduling;

/// <summary>What a departure asks for.</summary>
/// <param name="Boundary">Index of the interval boundary at which the car leaves.</param>
/// <param name="ReturnBoundary">Index of the boundary at which it is back.</param>
/// <param name="RequiredKwh">The larger of the target asked and the trip's need at the stated confidence plus the minimum; never above the
/// extended limit. [kWh]</param>
/// <param name="DriveKwh">Mean energy of the whole trip. [kWh]</param>
/// <param name="DistanceKm">Length of the trip, home to home. [km]</param>
public sealed record DepartureTarget(int Boundary, int ReturnBoundary, double RequiredKwh, double DriveKwh, double DistanceKm)
{
    /// <summary>The trip's need at the stated confidence, the minimum included, before any target or limit. [kWh]</summary>
    public double NeedKwh { get; init; } = RequiredKwh;

    /// <summary>The target asked; zero where none was. [kWh]</summary>
    public double TargetKwh { get; init; }

    /// <summary>Index of the boundary by which the energy should be there: that of the departure, or earlier by a finish margin that energy and power alone allow.</summary>
    public int DueBoundary { get; init; } = Boundary;

    /// <summary>Whether the finish margin that was asked for is kept; true where none was. Where running rules alone prevent it, <see cref="DueBoundary"/> stays, as a wish.</summary>
    public bool MarginKept { get; init; } = true;
}
