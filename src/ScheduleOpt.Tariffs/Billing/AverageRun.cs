using System.Runtime.CompilerServices;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Averages that begin at equal distances.</summary>
/// <param name="Start">Start of the first. [s since 1970-01-01T00:00Z]</param>
/// <param name="Count">How many.</param>
/// <param name="Stride">From one start to the next. [s]</param>
/// <param name="Step">Length of each. [s]</param>
internal readonly record struct AverageRun(long Start, int Count, long Stride, long Step)
{
    /// <summary>Energy of one. [1e-6 kWh]</summary>
    public long Energy(MeteredSeries series, int index) =>
        UseSorter.Energy(series, Start + (index * Stride), Start + (index * Stride) + Step);

    /// <summary>Those of them that begin before a second, and the others.</summary>
    public (AverageRun Before, AverageRun After) SplitAt(long second)
    {
        var before = second <= Start ? 0 : (int)Math.Min(Count, ((second - 1 - Start) / Stride) + 1);
        return (this with { Count = before }, this with { Start = Start + (before * Stride), Count = Count - before });
    }

    /// <summary>The highest energy of all. [1e-6 kWh]</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public long Highest(MeteredSeries series)
    {
        long interval = series.IntervalSeconds, after = Start - series.StartSecond, highest = 0;
        if (Step % interval != 0 || Stride % interval != 0 || after % interval != 0)
        {
            for (var i = 0; i < Count; i++)
            {
                highest = Math.Max(highest, Energy(series, i));
            }

            return highest;
        }

        // Whole intervals, without a division each.
        var energies = series.MicroKilowattHours;
        int first = (int)(after / interval), width = (int)(Step / interval), skip = (int)(Stride / interval);
        for (var i = 0; i < Count; i++, first += skip)
        {
            long energy = 0;
            foreach (var e in energies.Slice(first, width))
            {
                energy += e;
            }

            highest = Math.Max(highest, energy);
        }

        return highest;
    }
}
