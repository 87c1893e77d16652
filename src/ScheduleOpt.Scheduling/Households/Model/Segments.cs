using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>Runs of neighbouring intervals that can't be told apart, solved as one.</summary>
/// <remarks>
/// Costs and limits of equal neighbours are convex in power and share, so the mean of both is as good as either. A bound between them can't bind: standing, energy never falls, so the
/// lower bound of the run's start and the upper bound of its end hold inside too. Averages of a demand term: neighbours inside the same window are one, and so
/// are whole windows. Where a binary chooses between import and export the mean is not as good: those are kept.
/// </remarks>
internal sealed class Segments
{
    // With more segments of all cars a programme that decides by integers takes too long.
    private const int Most = 2400;

    private Segments(HouseholdModel model, int[] first, IReadOnlyList<DemandWindow>[] windows)
    {
        (Model, Windows) = (model, windows);
        First = first;
        Hours = new double[Count];
        SegmentOf = new int[model.Problem.Count];
        for (var s = 0; s < Count; s++)
        {
            for (var i = first[s]; i < first[s + 1]; i++)
            {
                Hours[s] += model.Problem.Hours[i];
                SegmentOf[i] = s;
            }
        }
    }

    public HouseholdModel Model { get; }

    /// <summary>First interval of each; at the end the number of intervals. Count + 1 values.</summary>
    public int[] First { get; }

    public int Count => First.Length - 1;

    public double[] Hours { get; }

    /// <summary>The segment of each interval.</summary>
    public int[] SegmentOf { get; }

    /// <summary>The averages that the programme knows of, by term of the model; none for terms that are no peaks.</summary>
    public IReadOnlyList<DemandWindow>[] Windows { get; }

    /// <summary>Powers of segments as powers of intervals.</summary>
    public HouseholdPowers Expanded(HouseholdPowers powers)
    {
        var expanded = new HouseholdPowers(powers.Share.Length, SegmentOf.Length);
        for (var c = 0; c < powers.Share.Length; c++)
        {
            for (var i = 0; i < SegmentOf.Length; i++)
            {
                expanded.WallKw[c][i] = powers.WallKw[c][SegmentOf[i]];
                expanded.Share[c][i] = powers.Share[c][SegmentOf[i]];
            }
        }

        return expanded;
    }

    /// <summary>Every interval by itself.</summary>
    public static Segments Unmerged(HouseholdModel model) => new(model, [.. Enumerable.Range(0, model.Problem.Count + 1)], WindowsOf(model));

    /// <summary>Equal neighbours merged.</summary>
    /// <param name="model">The household.</param>
    /// <param name="ignored">Conditions left out; for tests, which show that each is needed.</param>
    public static Segments Of(HouseholdModel model, MergeCondition ignored = MergeCondition.None) =>
        Merged(model, 0, ignored, WindowsOf(model), following: false);

    /// <summary>Every interval by itself before a boundary; beyond it fewer segments and rows, so that what is planned anew before it matters does not make the programme large.</summary>
    /// <param name="model">The household.</param>
    /// <param name="boundary">The boundary.</param>
    /// <param name="relaxed">The optimum without running rules, by car and interval.</param>
    /// <remarks>A bound still: where there would be too many segments it asks for less beyond the boundary, of sliding averages only those that follow one another and those that make the peak there, or
    /// the former alone.</remarks>
    public static Segments Until(HouseholdModel model, int boundary, HouseholdPowers relaxed)
    {
        var whole = Merged(model, boundary, MergeCondition.None, WindowsOf(model), following: false);
        if (whole.Count * model.Cars.Length <= Most)
        {
            return whole;
        }

        var peaks = Following(model, boundary, relaxed);
        return peaks.Count * model.Cars.Length <= Most ? peaks : Following(model, boundary, null);
    }

    /// <summary>The same with few of the sliding averages beyond the boundary.</summary>
    /// <param name="model">The household.</param>
    /// <param name="boundary">The boundary.</param>
    /// <param name="relaxed">The optimum that tells which make the peak, by car and interval; none: only those that follow one another.</param>
    internal static Segments Following(HouseholdModel model, int boundary, HouseholdPowers? relaxed)
    {
        double[]? taken = relaxed is null ? null : [.. Enumerable.Range(0, model.Problem.Count).Select(i =>
            model.Problem.Cars.Select((car, c) => car.Problem.Place[i] == Place.Home ? relaxed.WallKw[c][i] : 0).Sum())];
        return Merged(model, boundary, MergeCondition.None, [.. model.Terms.Select(t => FollowingWindows.Of(t, boundary, taken, model.BaseKw))], following: true);
    }

    private static IReadOnlyList<DemandWindow>[] WindowsOf(HouseholdModel model) => [.. model.Terms.Select(t => t is PeakModel peak ? peak.Windows : [])];

    private static Segments Merged(HouseholdModel model, int from, MergeCondition ignored, IReadOnlyList<DemandWindow>[] averages, bool following)
    {
        var equal = new EqualNeighbours(model, ignored);
        var windows = new WindowMembership(model, averages, following);
        var heeds = (ignored & MergeCondition.DemandHours) == 0;
        var first = new List<int> { 0 };
        for (var i = 1; i < model.Problem.Count; i++)
        {
            if (i <= from || !equal.At(i) || (heeds && !windows.SameAround(i)))
            {
                first.Add(i);
            }
        }

        first.Add(model.Problem.Count);
        if (heeds && windows.Any)
        {
            // Runs that are whole windows may follow one another.
            for (var s = first.Count - 2; s >= 1; s--)
            {
                var b = first[s];
                if (b > from && equal.At(b) && windows.AreWhole(first[s - 1], b, first[s + 1]))
                {
                    first.RemoveAt(s);
                }
            }
        }

        return new(model, [.. first], averages);
    }
}
