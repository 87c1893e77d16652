namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>A meter: what it serves and whose load it measures. Names and addresses are not read.</summary>
/// <param name="Service">ServiceCategory/kind: 0 electricity, 1 gas, 2 water; none where it is not said.</param>
/// <param name="IsVehicle">roleFlags isPEV.</param>
/// <param name="IsGeneration">roleFlags isDER.</param>
internal sealed record UsagePoint(int? Service, bool IsVehicle, bool IsGeneration);
