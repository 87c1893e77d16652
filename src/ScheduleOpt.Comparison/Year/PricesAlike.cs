using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Rate plans that a behaviour can't tell apart: one price after the other equal, and nothing beside them.</summary>
internal static class PricesAlike
{
    /// <summary>The plans in groups, each in the order given.</summary>
    public static IReadOnlyList<IReadOnlyList<PlanYear>> Groups(IReadOnlyList<PlanYear> plans)
    {
        var groups = new List<List<PlanYear>>();
        foreach (var plan in plans)
        {
            if (IsPlain(plan) && groups.Find(g => IsPlain(g[0]) && AreEqual(g[0].Prices.Spans, plan.Prices.Spans)) is { } group)
            {
                group.Add(plan);
            }
            else
            {
                groups.Add([plan]);
            }
        }

        return groups;
    }

    private static bool IsPlain(PlanYear plan) => plan.Prices.Terms.All(t => t is PercentageTerm { IsConvex: true }) && plan.Plan.PriceSeriesNames.Count == 0;

    private static bool AreEqual(IReadOnlyList<PriceSpan> a, IReadOnlyList<PriceSpan> b)
    {
        var (i, j) = (0, 0);
        while (i < a.Count && j < b.Count)
        {
            if (a[i].ImportPerKwh != b[j].ImportPerKwh)
            {
                return false;
            }

            // A span that only bears another period's name changes nothing.
            var (nextI, nextJ) = (Next(a, i), Next(b, j));
            if (nextI < a.Count != nextJ < b.Count || (nextI < a.Count && a[nextI].Start != b[nextJ].Start))
            {
                return false;
            }

            (i, j) = (nextI, nextJ);
        }

        return true;
    }

    private static int Next(IReadOnlyList<PriceSpan> spans, int at)
    {
        var next = at + 1;
        while (next < spans.Count && spans[next].ImportPerKwh == spans[at].ImportPerKwh)
        {
            next++;
        }

        return next;
    }
}
