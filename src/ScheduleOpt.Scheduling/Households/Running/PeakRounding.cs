using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Turns a solution within peaks into on and off by intervals: as many intervals as a segment needs, with those off that let an average stay below its peak.</summary>
internal static class PeakRounding
{
    /// <summary>On by car and interval, the rules of running kept.</summary>
    /// <param name="grid">The segments.</param>
    /// <param name="found">The solution, with its peaks.</param>
    /// <param name="early">Whether intervals are taken from the start of a segment on; otherwise from its end.</param>
    /// <param name="spare">Whole intervals taken beyond what a segment needs.</param>
    public static bool[][] On(Segments grid, Solvers.OrderedOptimum found, bool early, int spare)
    {
        var model = grid.Model;
        var room = PeakRoom.Below(model, [.. found.PeaksKw.Select(kw => new PeakRange(0, kw + 1e-6))]);
        var on = model.Cars.Select(_ => new bool[model.Problem.Count]).ToArray();
        for (var c = 0; c < on.Length; c++)
        {
            foreach (var (first, end) in model.Cars[c].Stays)
            {
                AddStay(grid, found, room, on, c, first, end, early, spare);
                WindowRules.Keep(model, on, c, first, end);
            }
        }

        return on;
    }

    private static void AddStay(Segments grid, Solvers.OrderedOptimum found, PeakRoom room, bool[][] on, int c, int first, int end, bool early, int spare)
    {
        var (from, until) = (grid.SegmentOf[first], grid.SegmentOf[end - 1] + 1);
        var left = 0;
        for (var k = 0; k < until - from; k++)
        {
            var s = early ? from + k : until - 1 - k;
            var count = grid.First[s + 1] - grid.First[s];
            var share = found.On[c][s];
            if (share <= 1e-6 && left == 0)
            {
                continue;
            }

            left += share > 1e-6 ? (int)Math.Ceiling((share * count) - 1e-6) + spare : 0;
            // Beside another car only where no interval is left to itself.
            for (var j = 0; j < 2 * count && left > 0; j++)
            {
                var i = early ? grid.First[s] + (j % count) : grid.First[s + 1] - 1 - (j % count);
                if (!on[c][i] && (j >= count || !on.Any(car => car[i])) && OnOffRounding.Fits(grid.Model, on, c, i) && room.LetsOn(c, on[c], i))
                {
                    on[c][i] = true;
                    left--;
                }
            }

            // What has no room here is not carried into hours that the solution leaves out.
            left = share > 1e-6 ? left : 0;
        }
    }
}
