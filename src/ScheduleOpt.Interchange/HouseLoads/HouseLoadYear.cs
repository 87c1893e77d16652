using NodaTime;

namespace ScheduleOpt.Interchange.HouseLoads;

/// <summary>The load of a house over a calendar year.</summary>
/// <param name="Start">Start of the local year: the first hour begins here.</param>
/// <param name="HourlyKwh">Energy at the meter of each hour, 8,760 or 8,784 values. [kWh]</param>
public sealed record HouseLoadYear(Instant Start, IReadOnlyList<double> HourlyKwh);
