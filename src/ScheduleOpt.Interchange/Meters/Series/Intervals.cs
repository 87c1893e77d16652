namespace ScheduleOpt.Interchange.Meters.Series;

/// <summary>Energy of the intervals of a grid, with what of each has been read.</summary>
internal sealed class Intervals
{
    private readonly IntervalGrid grid;
    private readonly long[] energy;
    private readonly int[] secondsRead;

    public Intervals(IntervalGrid grid)
    {
        this.grid = grid;
        energy = new long[grid.Count];
        secondsRead = new int[grid.Count];
    }

    public int Count => energy.Length;

    public long SecondsPerInterval => grid.Length;

    /// <summary>Readings that were spread over several intervals.</summary>
    public int Spread { get; private set; }

    public long StartOf(int interval) => grid.Start + ((long)interval * grid.Length);

    /// <summary>Number of the interval that holds a second; out of range where none does.</summary>
    public long At(long second) => second < grid.Start ? -1 : (second - grid.Start) / grid.Length;

    public bool IsMissing(int interval) => secondsRead[interval] < grid.Length;

    /// <summary>Energy of an interval. [1e-6 kWh]</summary>
    public long this[int interval] => IsMissing(interval) ? 0 : energy[interval];

    public void Take(RawReading reading)
    {
        if (reading.Duration == 0)
        {
            return;
        }

        int first = (int)At(reading.Start), last = (int)At(reading.End - 1);
        if (last > first)
        {
            Spread++;
        }

        long left = reading.Value, at = reading.Start;
        for (var i = first; i <= last; i++)
        {
            var end = Math.Min(reading.End, StartOf(i) + grid.Length);
            // The rest of the rounding goes to the last, so that the sum is the reading.
            var part = i == last ? left : (long)((Int128)reading.Value * (end - at) / reading.Duration);
            energy[i] += part;
            secondsRead[i] += (int)(end - at);
            left -= part;
            at = end;
        }
    }

    /// <summary>Puts a value where there was none. [1e-6 kWh]</summary>
    public void Fill(int interval, long value) => (energy[interval], secondsRead[interval]) = (value, grid.Length);
}
