using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Turns the stands of a register into what was used between them.</summary>
internal static class RegisterDifferences
{
    /// <summary>Each difference lasts from one stand to the next. A stand belongs to the end of its time period, or to its stamp where that has
    /// no length.</summary>
    /// <param name="stands">Stands, which will be sorted.</param>
    /// <param name="mayFall">Whether the register may run backwards: that of a net flow.</param>
    /// <param name="unusable">Differences left out: a register that runs backwards was exchanged or has rolled over.</param>
    public static RawReading[] Of(RawReading[] stands, bool mayFall, out int unusable)
    {
        Array.Sort(stands, static (a, b) => a.End != b.End ? a.End.CompareTo(b.End) : b.Rank.CompareTo(a.Rank));
        var differences = new List<RawReading>(stands.Length);
        unusable = 0;
        RawReading? before = null;
        foreach (var stand in stands)
        {
            if (before is { } last && stand.End == last.End)
            {
                continue;
            }

            if (before is { } from)
            {
                var (used, length) = (stand.Value - from.Value, stand.End - from.End);
                if ((used < 0 && !mayFall) || length > int.MaxValue)
                {
                    unusable++;
                }
                else
                {
                    differences.Add(stand.With(from.End, (int)length, used));
                }
            }

            before = stand;
        }

        return [.. differences];
    }
}
