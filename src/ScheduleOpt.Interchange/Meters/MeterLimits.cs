namespace ScheduleOpt.Interchange.Meters;

/// <summary>How large a file of meter readings may be.</summary>
public static class MeterLimits
{
    /// <summary>Largest file: 50 MiB. [byte]</summary>
    public const int Bytes = 50 * 1024 * 1024;

    /// <summary>Most readings in one file; also the most intervals of a series.</summary>
    public const int Readings = 2_000_000;

    /// <summary>Longest single piece of a file: a tag, or a row of a table. [characters]</summary>
    internal const int PieceCharacters = 64 * 1024;

    /// <summary>Deepest nesting of elements.</summary>
    internal const int Depth = 64;

    /// <summary>Most entries of a feed.</summary>
    internal const int Entries = 400_000;

    /// <summary>Most usage points, meter readings, reading types, clocks or summaries of a feed, of each.</summary>
    internal const int Described = 1000;

    /// <summary>Most different names of elements and attributes.</summary>
    internal const int Names = 5000;

    /// <summary>Longest address of a link; longer ones link nothing. [characters]</summary>
    internal const int LinkCharacters = 500;

    /// <summary>Most gaps that a report lists one by one.</summary>
    internal const int Gaps = 1000;

    /// <summary>Most columns of a table.</summary>
    internal const int Columns = 400;

    /// <summary>Rows of a table from which its layout is guessed.</summary>
    internal const int SampleRows = 2000;
}
