namespace ScheduleOpt.Interchange.Meters;

/// <summary>What becomes of intervals between the first and the last reading for which the file has none. Whoever asks chooses; the report says
/// what was done.</summary>
public enum MissingIntervals
{
    /// <summary>The file is refused and its gaps are named.</summary>
    Refuse,

    /// <summary>They count as no use: right for a meter that reports only while it measures.</summary>
    Zero,

    /// <summary>The mean of the same local time of day one week before and after, of those that were read; else two weeks, three, four. A file of which
    /// more than half is missing, or an interval without such a neighbour, is refused.</summary>
    NeighbouringWeeks,
}
