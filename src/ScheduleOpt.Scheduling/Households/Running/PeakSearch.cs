using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Where integers leave a gap: halves the ranges in which peaks may lie, and throws out those that can't hold a better schedule.</summary>
/// <remarks>Where a peak is known to be low, the relaxation knows that cars can't charge throughout (<see cref="PeakRoom"/>): in narrow ranges it is all but as dear as the best schedule.
/// Its solutions are rounded for schedules on the way. Linear programmes alone, a set number of them.</remarks>
internal sealed class PeakSearch(RunnableSearch search, HouseholdRelaxation relaxation, double proven, ShortfallOrder order, SolveLimit limit)
{
    // A range in which the peak is all but known. [kW]
    private const double Narrow = 0.0005;

    // Room that held shortfalls are given, so that rounding in the solver can't rule a range out. [kWh]
    private const double Room = 1e-6;

    // The most linear programmes that give a bound.
    private const int Most = 24;

    // After so many they must have closed this much of the gap: where they have not, others of their kind don't either.
    private const int First = 10;
    private const double LeastClosed = 0.3;

    private readonly HouseholdModel model = relaxation.Grid.Model;
    private readonly double begun = proven;
    private readonly List<Box> open = [];
    private readonly OnOffPlan plan =
        OnOffPlan.Relaxed(relaxation.Until(relaxation.Grid.Model.Cars.Max(c => c.IntegersUntil))) with { FreeFlows = true };

    /// <summary>Whether the household has peaks, and nothing in its bill but them needs integers.</summary>
    public static bool Applies(HouseholdModel model) => model.Terms.Any(t => t is PeakModel) && model.Terms.All(t => t.Pieces.IsConvex);

    /// <summary>What is proven once it has run. [currency]</summary>
    public double Bound { get; private set; } = proven;

    /// <summary>What is proven of ranges outside <see cref="Left"/>. [currency]</summary>
    public double BoundOutside { get; private set; } = double.PositiveInfinity;

    /// <summary>The ranges in which a better schedule may lie; none: nowhere.</summary>
    public PeakRange[]? Left { get; private set; }

    /// <summary>Searches.</summary>
    public void Run()
    {
        PeakRange[] all = [.. model.Terms.Select(t => new PeakRange(0, t is PeakModel ? t.Pieces.Pieces[^1].To : 0))];
        Solve(all, Bound);
        for (var solved = 1; solved < Most && (solved < First || Closes()) && limit.MayGoOn && Next() is { } box; solved += 2)
        {
            open.Remove(box);
            var t = Widest(box.Ranges);
            var (from, to) = (box.Ranges[t].From, box.Ranges[t].To);
            var at = Math.Clamp(box.PeaksKw[t] + (0.25 * (to - box.PeaksKw[t])), from + (0.1 * (to - from)), to - (0.1 * (to - from)));
            Solve(With(box.Ranges, t, new(from, at)), box.Bound);
            Solve(With(box.Ranges, t, new(at, to)), box.Bound);
        }

        Conclude();
    }

    private void Solve(PeakRange[] ranges, double atLeast)
    {
        var found = StrictOrder.Costs(plan with { Peaks = ranges }, relaxation.Shortfalls, order, limit, Room);
        if (!found.IsSolved)
        {
            if (found.LimitReached)
            {
                // Neither solved nor infeasible: as good as not looked at.
                open.Add(new(ranges, [.. ranges.Select(r => r.From)], atLeast));
            }

            return;
        }

        var box = new Box(ranges, found.PeaksKw, Math.Max(atLeast, found.Bound));
        open.Add(box);
        if (MayHoldBetter(box))
        {
            search.Try(PeakRounding.On(plan.Grid, found, early: false, 0));
            search.Try(PeakRounding.On(plan.Grid, found, early: true, 1));
        }
    }

    /// <summary>The range that holds the bound down, unless no better schedule can be in it or it is narrow.</summary>
    private Box? Next()
    {
        var box = open.MinBy(b => b.Bound);
        return box is not null && MayHoldBetter(box) && Width(box.Ranges) > Narrow ? box : null;
    }

    private bool Closes() => open.Min(b => b.Bound) > begun + (LeastClosed * (search.Best!.Objective - begun));

    private void Conclude()
    {
        Bound = open.Count == 0 ? Bound : open.Min(b => b.Bound);
        foreach (var box in open)
        {
            if (!MayHoldBetter(box))
            {
                BoundOutside = Math.Min(BoundOutside, box.Bound);
            }
            else
            {
                Left = Left is null ? box.Ranges : [.. Left.Zip(box.Ranges, (a, b) => new PeakRange(Math.Min(a.From, b.From), Math.Max(a.To, b.To)))];
            }
        }
    }

    // With more unmet than must be no schedule rules a range out.
    private bool MayHoldBetter(Box box) =>
        search.Best is not { } best || !HouseholdScheduler.IsFine(best, relaxation.Shortfalls, box.Bound, model, order);

    private int Widest(PeakRange[] ranges) => Enumerable.Range(0, ranges.Length).MaxBy(t => Weight(t) * (ranges[t].To - ranges[t].From));

    private double Weight(int t) => model.Terms[t] is PeakModel ? model.Terms[t].Pieces.Pieces.Max(p => p.Slope) : 0;

    private static double Width(PeakRange[] ranges) => ranges.Max(r => r.To - r.From);

    private static PeakRange[] With(PeakRange[] ranges, int t, PeakRange range)
    {
        PeakRange[] changed = [.. ranges];
        changed[t] = range;
        return changed;
    }

    private sealed record Box(PeakRange[] Ranges, double[] PeaksKw, double Bound);
}
