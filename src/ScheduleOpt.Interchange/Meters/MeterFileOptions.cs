using NodaTime;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>What the client says about a file of meter readings.</summary>
public sealed record MeterFileOptions
{
    /// <summary>The household's time zone: local times are read in it, and a file that states another clock is warned about.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>What becomes of missing intervals; refused unless said otherwise.</summary>
    public MissingIntervals Missing { get; init; }

    /// <summary>What the seconds of a Green Button file count.</summary>
    public EpochSeconds EpochSeconds { get; init; }

    /// <summary>Where a table has what; what is left out is guessed and the guess is reported.</summary>
    public CsvLayout Csv { get; init; } = new();
}
