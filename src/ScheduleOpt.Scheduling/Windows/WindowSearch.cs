namespace ScheduleOpt.Scheduling.Windows;

/// <summary>Looks for fewer windows that store the same energy in a stay at all but the same cost.</summary>
/// <remarks>
/// With the number of windows given, cost and stored energy are piecewise linear in the windows' edges, and one equation binds them: so a
/// best choice has all edges but one where price, rate or a bound changes. All such choices are looked at while they are few; one
/// window is looked for from every boundary of the grid.
/// </remarks>
internal sealed class WindowSearch
{
    // Choices looked at for one number of windows, about a millisecond's work; beyond it the schedule keeps the windows it has.
    private const double MostChoices = 60_000;
    private const double SameKwh = 1e-9;

    private readonly Stay stay;
    private readonly double startKwh;
    private readonly double gainKwh;
    private readonly double atMostCost;
    private readonly double[] edges;
    private readonly int[] breaks;
    private StayWindows? best;

    private WindowSearch(Stay stay, double startKwh, double gainKwh, double atMostCost, int windows)
    {
        this.stay = stay;
        this.startKwh = startKwh;
        this.gainKwh = gainKwh;
        this.atMostCost = atMostCost;
        edges = new double[2 * windows];
        breaks = windows == 1 ? [.. Enumerable.Range(0, stay.Count + 1)] : stay.BreakPositions();
    }

    /// <summary>The best choice of a number of windows, or null.</summary>
    public static StayWindows? Best(Stay stay, double startKwh, double gainKwh, double atMostCost, int windows)
    {
        var search = new WindowSearch(stay, startKwh, gainKwh, atMostCost, windows);
        if (Math.Pow(search.breaks.Length, (2 * windows) - 1) > MostChoices)
        {
            return null;
        }

        for (var free = 0; free < 2 * windows; free++)
        {
            search.Choose(0, free, 0, 0);
        }

        return search.best;
    }

    /// <summary>A choice with its cost and dwell, or null where it breaks a bound.</summary>
    public static StayWindows? Evaluate(Stay stay, double startKwh, double[] edges)
    {
        var problem = stay.Problem;
        var stored = startKwh;
        var cost = 0.0;
        var dwell = 0.0;
        for (var w = 0; w < edges.Length; w += 2)
        {
            cost += stay.Cost(edges[w + 1]) - stay.Cost(edges[w]);
        }

        var at = 0;
        for (var j = 0; j < stay.Count; j++)
        {
            var i = stay.First + j;
            var on = 0.0;
            while (at < edges.Length && edges[at] < j + 1)
            {
                on += Math.Min(edges[at + 1], j + 1) - Math.Max(edges[at], j);
                if (edges[at + 1] > j + 1)
                {
                    break;
                }

                at += 2;
            }

            var after = stored + (on * problem.NetKw[i] * problem.Hours[i]);
            dwell += Dwell.Price(problem, i, (stored + after) / 2, problem.Hours[i]);
            stored = after;
            if (stored > problem.UpperKwh[i + 1] + 1e-7 || stored < problem.LowerKwh[i + 1] - 1e-7)
            {
                return null;
            }
        }

        return new StayWindows([.. edges], cost, dwell);
    }

    private void Choose(int edge, int free, int firstBreak, double signedGain)
    {
        if (edge == edges.Length)
        {
            Try(free, signedGain);
            return;
        }

        if (edge == free)
        {
            Choose(edge + 1, free, firstBreak, signedGain);
            return;
        }

        var sign = (edge & 1) == 0 ? -1 : 1;
        for (var b = firstBreak; b < breaks.Length; b++)
        {
            edges[edge] = breaks[b];
            Choose(edge + 1, free, b + 1, signedGain + (sign * stay.Gain(breaks[b])));
        }
    }

    /// <summary>Puts the free edge where the energy comes out right, and keeps the choice if it is allowed and better.</summary>
    private void Try(int free, double signedGain)
    {
        var isStart = (free & 1) == 0;
        var wanted = isStart ? signedGain - gainKwh : gainKwh - signedGain;
        if (wanted < -SameKwh || wanted > stay.Gain(stay.Count) + SameKwh)
        {
            return;
        }

        var position = stay.PositionOfGain(wanted, last: isStart);
        if (Math.Abs(stay.Gain(position) - wanted) > SameKwh
            || (free > 0 && position < edges[free - 1])
            || (free < edges.Length - 1 && position > edges[free + 1]))
        {
            return;
        }

        edges[free] = position;
        var cost = 0.0;
        for (var w = 0; w < edges.Length; w += 2)
        {
            if (edges[w + 1] <= edges[w] || (w > 0 && edges[w] <= edges[w - 1]) || stay.IsBroken(edges[w], edges[w + 1]))
            {
                return;
            }

            cost += stay.Cost(edges[w + 1]) - stay.Cost(edges[w]);
        }

        if (cost <= atMostCost && Evaluate(stay, startKwh, edges) is { } choice && (best is null || choice.IsBetterThan(best)))
        {
            best = choice;
        }
    }
}
