using NodaTime;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>Intervals that follow one another and for which a file has no reading.</summary>
/// <param name="Start">When the first of them begins.</param>
/// <param name="End">When the last of them ends.</param>
/// <param name="Intervals">How many there are.</param>
public sealed record MeterGap(Instant Start, Instant End, int Intervals);
