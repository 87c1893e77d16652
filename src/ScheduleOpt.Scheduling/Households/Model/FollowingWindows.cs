namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>Of a demand term's sliding averages beyond a boundary those that follow one another without overlap, and those that make its peak; before it, and of others, all.</summary>
internal static class FollowingWindows
{
    // Averages this near the highest may make the peak once something changes. [kW]
    private const double Near = 0.05;

    /// <param name="term">A term of the model.</param>
    /// <param name="boundary">The boundary.</param>
    /// <param name="takenKw">What cars take in each interval, as the optimum without running rules has it; none: only those that follow one another.</param>
    /// <param name="baseKw">House less solar. [kW]</param>
    public static IReadOnlyList<DemandWindow> Of(TermModel term, int boundary, double[]? takenKw, double[] baseKw)
    {
        if (term is not PeakModel peak)
        {
            return [];
        }

        if (!peak.Sliding)
        {
            return peak.Windows;
        }

        double[]? averages = takenKw is null ? null : [.. peak.Windows.Select(window => Average(window, takenKw))];
        var (kept, end, high) = (new List<DemandWindow>(), boundary, (averages?.Max() ?? 0) - Near);
        for (var w = 0; w < peak.Windows.Count; w++)
        {
            var window = peak.Windows[w];
            if (window.First < boundary || averages?[w] >= high)
            {
                kept.Add(window);
            }
            else if (window.First >= end)
            {
                kept.Add(window);
                end = window.First + window.Hours.Length;
            }
        }

        return kept;

        double Average(DemandWindow window, double[] taken) =>
            window.Hours.Select((hours, k) => hours * Math.Max(0, baseKw[window.First + k] + taken[window.First + k])).Sum() / window.Total;
    }
}
