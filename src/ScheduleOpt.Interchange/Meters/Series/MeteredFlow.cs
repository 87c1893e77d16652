namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>Readings of one flow of one meter, in millionths of a kWh.</summary>
/// <param name="Name">A name of our own.</param>
/// <param name="Pointer">Where faults of it stand.</param>
/// <param name="Direction">Which way it flows; none for a net flow, which may be negative.</param>
/// <param name="IsVehicle">Whether it measures a car alone.</param>
/// <param name="Readings">The readings, in any order; they will be sorted in place.</param>
internal sealed record MeteredFlow(string Name, string Pointer, FlowDirection? Direction, bool IsVehicle, Memory<RawReading> Readings)
{
    /// <summary>Sum of the costs stated beside the readings. [currency]</summary>
    public decimal? StatedCost { get; init; }

    /// <summary>Readings that were left out before.</summary>
    public int Unusable { get; init; }
}
