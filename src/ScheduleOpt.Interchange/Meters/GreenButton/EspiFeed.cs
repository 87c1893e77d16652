using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>What a Green Button file holds, before its parts are put together.</summary>
internal sealed class EspiFeed
{
    public List<(EspiLinks Links, UsagePoint Value)> UsagePoints { get; } = [];

    public List<EspiLinks> MeterReadings { get; } = [];

    public List<(EspiLinks Links, ReadingType Value)> ReadingTypes { get; } = [];

    public List<LocalTimeParameters> Clocks { get; } = [];

    public List<BillSummary> Summaries { get; } = [];

    public List<IntervalBlock> Blocks { get; } = [];

    /// <summary>All readings in the order of the file, in its own units. Of readings that do not state a start or length see <see cref="NoStart"/>.</summary>
    public List<RawReading> Readings { get; } = [];

    /// <summary>Stands for a start that a reading does not state.</summary>
    public const long NoStart = long.MinValue;

    /// <summary>Stands for a length that a reading does not state.</summary>
    public const int NoDuration = -1;
}
