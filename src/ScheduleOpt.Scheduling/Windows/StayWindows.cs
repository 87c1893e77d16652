namespace ScheduleOpt.Scheduling.Windows;

/// <summary>A choice of windows for one stay, as positions of the stay: start and end of each, in order.</summary>
/// <param name="Edges">Start, end, start, end, …</param>
/// <param name="Cost">What they cost, as the LP counts it. [currency]</param>
/// <param name="Dwell">Ageing price on dwell. [currency]; never shown as money.</param>
internal sealed record StayWindows(double[] Edges, double Cost, double Dwell)
{
    public int Count => Edges.Length / 2;

    public double End => Edges.Length == 0 ? 0 : Edges[^1];

    /// <summary>Step 3: fewest windows, then least dwell, then the earliest end.</summary>
    public bool IsBetterThan(StayWindows other)
    {
        const double same = 1e-9;
        return Count != other.Count ? Count < other.Count
            : Math.Abs(Dwell - other.Dwell) > same ? Dwell < other.Dwell
            : End < other.End - same;
    }
}
