using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>Reads a rate plan's terms: what of them can make a difference within the horizon.</summary>
internal static class TermReading
{
    public static IEnumerable<TermModel> Terms(HouseholdProblem problem, double[] mostKw)
    {
        foreach (var term in problem.Terms)
        {
            TermModel? model = term switch
            {
                DemandTerm demand => Peak(problem, demand, mostKw),
                BlockTerm block => Use(problem, block, mostKw),
                BandTerm band => Use(problem, band, mostKw),
                _ => null,
            };
            if (model is not null && !model.Pieces.IsNothing)
            {
                yield return model;
            }
        }
    }

    public static IEnumerable<LeastBill> LeastBills(HouseholdProblem problem) =>
        from term in problem.Terms.OfType<MinimumTerm>()
        where Enumerable.Range(0, problem.Count).Any(i => term.BillingPeriod.Contains(problem.Boundaries[i]))
        select new LeastBill(term.BillingPeriod, (double)(term.Minimum - term.Counted));

    private static PeakModel? Peak(HouseholdProblem problem, DemandTerm term, double[] mostKw)
    {
        var billed = (double)Math.Max(term.MeasuredKw, term.FloorKw);
        var most = 0.0;
        var windows = new List<DemandWindow>();
        foreach (var window in DemandWindows.Of(term, problem.Boundaries))
        {
            var sum = 0.0;
            for (var k = 0; k < window.Hours.Length; k++)
            {
                var i = window.First + k;
                sum += window.Hours[k] * Math.Max(0, problem.HouseKw[i] - problem.SolarKw[i] + mostKw[i]);
            }

            if (sum / window.Total > billed + 1e-9)
            {
                windows.Add(window);
                most = Math.Max(most, (sum / window.Total) - billed);
            }
        }

        var blocks = term.Blocks.Select(b => ((double?)b.UpToKw ?? double.PositiveInfinity, (double)b.PricePerKw))
            .Append((double.PositiveInfinity, 0.0));
        return windows.Count == 0 ? null : new(CostPieces.OfMarginal(billed, most, blocks, 0), term.BillingPeriod, billed, windows, term.Sliding);
    }

    private static UseModel Use(HouseholdProblem problem, BlockTerm term, double[] mostKw)
    {
        var counts = Members(problem, term.Hours);
        var most = MostUse(problem, counts, mostKw);
        var used = (double)term.UsedKwh;
        var counted = (double)term.Blocks[term.ReachedBlock].PricePerKwh;
        var edges = new List<(double UpTo, double Price)>();
        var below = 0.0;
        foreach (var block in term.Blocks)
        {
            below = block.WidthKwh is { } width ? below + (double)width : double.PositiveInfinity;
            edges.Add((below, (double)block.PricePerKwh));
        }

        if (!term.WholeUse)
        {
            return new(CostPieces.OfMarginal(used, most, edges, counted), term.BillingPeriod, counts);
        }

        var now = edges.First(e => used <= e.UpTo).Price;
        var spans = edges.Select(e => (e.UpTo, used * (e.Price - now), e.Price - counted));
        return new(CostPieces.OfJumps(used, most, spans), term.BillingPeriod, counts);
    }

    private static UseModel Use(HouseholdProblem problem, BandTerm term, double[] mostKw)
    {
        var counts = Members(problem, [term.BillingPeriod]);
        var used = (double)term.UsedKwh;
        var over = (double?)term.OverKwh ?? double.NegativeInfinity;
        var upTo = (double?)term.UpToKwh ?? double.PositiveInfinity;
        var amount = (double)term.Amount;
        var now = over < used && used <= upTo ? amount : 0;
        var spans = new[] { (over, -now, 0.0), (upTo, amount - now, 0.0), (double.PositiveInfinity, -now, 0.0) };
        return new(CostPieces.OfJumps(used, MostUse(problem, counts, mostKw), spans), term.BillingPeriod, counts);
    }

    private static double MostUse(HouseholdProblem problem, bool[] counts, double[] mostKw)
    {
        var sum = 0.0;
        for (var i = 0; i < counts.Length; i++)
        {
            sum += counts[i] ? problem.Hours[i] * mostKw[i] : 0;
        }

        return sum;
    }

    private static bool[] Members(HouseholdProblem problem, IReadOnlyList<Interval> hours)
    {
        var counts = new bool[problem.Count];
        foreach (var span in hours)
        {
            var from = span.HasStart ? Array.BinarySearch(problem.Boundaries, span.Start) : 0;
            for (var i = from >= 0 ? from : ~from; i < counts.Length && (!span.HasEnd || problem.Boundaries[i] < span.End); i++)
            {
                counts[i] = true;
            }
        }

        return counts;
    }
}
