namespace ScheduleOpt.Comparison.BreakEvens;

/// <summary>Finds where the cheaper of two alternatives changes, by exact re-runs: nothing is interpolated.</summary>
/// <remarks>
/// Costs are worked out at evenly spaced places; between two neighbours with different answers the place of change is halved down to the
/// axis's tolerance. Two changes between the same neighbours escape: more samples find them. Costs may have steps.
/// </remarks>
public static class BreakEvenSearch
{
    /// <summary>Searches.</summary>
    /// <param name="axis">What is varied.</param>
    /// <param name="first">What the first alternative costs. [currency]</param>
    /// <param name="second">What the second costs. [currency]</param>
    /// <param name="samples">Places looked at before halving, both ends included; 2 to 1000. Default 9.</param>
    /// <param name="indifferent">The difference up to which both count as equal; zero or more. [currency]</param>
    /// <param name="cancellation">Gives up between runs.</param>
    /// <exception cref="ArgumentException">The axis is empty or not finite, the samples or the tolerance are outside their limits.</exception>
    public static BreakEvenResult Run(
        BreakEvenAxis axis,
        Func<double, decimal> first,
        Func<double, decimal> second,
        int samples = 9,
        decimal indifferent = 0,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(axis);
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        if (!double.IsFinite(axis.High - axis.Low) || axis.High <= axis.Low || axis.Tolerance is not > 0 || samples is < 2 or > 1000 || indifferent < 0)
        {
            throw new ArgumentException("An axis must rise between finite ends, with a tolerance above zero, 2 to 1000 samples and no negative indifference.");
        }

        var runs = 0;
        var places = new Place[samples];
        for (var i = 0; i < samples; i++)
        {
            places[i] = At(i == samples - 1 ? axis.High : axis.Low + ((axis.High - axis.Low) * i / (samples - 1)));
        }

        var edges = new List<BreakEven>();
        for (var i = 1; i < samples; i++)
        {
            Split(places[i - 1], places[i]);
        }

        return new BreakEvenResult(axis, Changes(edges), places[0].Cheaper, places[^1].Cheaper, runs);

        // Every edge between unlike answers; a stretch of equal costs inside gives two.
        void Split(Place low, Place high)
        {
            while (low.Cheaper != high.Cheaper)
            {
                var middle = low.X + ((high.X - low.X) / 2);
                if (high.X - low.X <= axis.Tolerance || middle <= low.X || middle >= high.X)
                {
                    edges.Add(new BreakEven(low.X, high.X, low.Cheaper, high.Cheaper, IsJump(low, high)));
                    return;
                }

                var between = At(middle);
                if (between.Cheaper == low.Cheaper)
                {
                    low = between;
                }
                else if (between.Cheaper == high.Cheaper)
                {
                    high = between;
                }
                else
                {
                    Split(low, between);
                    low = between;
                }
            }
        }

        // A continuous curve that crosses within the tolerance differs there by no more than it does a sample away: a jump does not shrink.
        bool IsJump(Place low, Place high)
        {
            if (low.Cheaper == Cheaper.Equal || high.Cheaper == Cheaper.Equal)
            {
                return false;
            }

            var nearer = At(low.X + ((high.X - low.X) / 2));
            return Math.Abs(high.Difference - low.Difference) > 0
                && Math.Max(Math.Abs(high.Difference - nearer.Difference), Math.Abs(nearer.Difference - low.Difference))
                    > 0.99m * Math.Abs(high.Difference - low.Difference);
        }

        Place At(double x)
        {
            cancellation.ThrowIfCancellationRequested();
            runs++;
            var difference = first(x) - second(x);
            return new Place(x, difference, Math.Abs(difference) <= indifferent ? Cheaper.Equal : difference < 0 ? Cheaper.First : Cheaper.Second);
        }
    }

    /// <summary>Joins an edge into equality with the one out of it; where the same alternative is cheaper on both sides nothing changes.</summary>
    private static List<BreakEven> Changes(List<BreakEven> edges)
    {
        var found = new List<BreakEven>();
        foreach (var edge in edges)
        {
            if (found.Count > 0 && found[^1].Above == Cheaper.Equal && edge.Below == Cheaper.Equal)
            {
                var into = found[^1];
                found.RemoveAt(found.Count - 1);
                if (into.Below != edge.Above)
                {
                    found.Add(new BreakEven(into.From, edge.Until, into.Below, edge.Above, false));
                }
            }
            else
            {
                found.Add(edge);
            }
        }

        return found;
    }

    private readonly record struct Place(double X, decimal Difference, Cheaper Cheaper);
}
