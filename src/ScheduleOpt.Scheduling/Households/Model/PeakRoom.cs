using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>What peaks of at most so much leave cars in each interval, and which neighbours can't all be on below them.</summary>
/// <remarks>Between two neighbours that are on, a car charges throughout. So where an average has no room for that, some neighbour must be off.</remarks>
internal sealed class PeakRoom
{
    private const double Nothing = 1e-9;

    private readonly HouseholdModel model;

    private PeakRoom(HouseholdModel model)
    {
        this.model = model;
        MostKw = new double[model.Problem.Count];
        Array.Fill(MostKw, double.PositiveInfinity);
        NotAllOn = [.. model.Cars.Select(_ => new List<(int First, int End)>())];
    }

    /// <summary>The most that cars can take together in an interval, all else of its averages being without charging. [kW]</summary>
    public double[] MostKw { get; }

    /// <summary>For each car, intervals first to end - 1 of one stay of which at least one is off; by their start, none inside another.</summary>
    public List<(int First, int End)>[] NotAllOn { get; }

    /// <summary>The room below the upper ends of ranges.</summary>
    /// <param name="model">The household.</param>
    /// <param name="ranges">By term; of terms that are no peaks they mean nothing.</param>
    public static PeakRoom Below(HouseholdModel model, IReadOnlyList<PeakRange> ranges)
    {
        var room = new PeakRoom(model);
        for (var t = 0; t < model.Terms.Length; t++)
        {
            if (model.Terms[t] is PeakModel peak)
            {
                foreach (var window in peak.Windows)
                {
                    room.Add(window, room.BudgetKwh(window, peak.BilledKw + ranges[t].To));
                }
            }
        }

        foreach (var sets in room.NotAllOn)
        {
            KeepSmallest(sets);
        }

        return room;
    }

    /// <summary>The fewest intervals that must be off between two boundaries.</summary>
    public int LeastOff(int car, int first, int end)
    {
        // Sets are in the order of their ends: one off at the end of each that has none yet.
        var sets = NotAllOn[car];
        var (low, high) = (0, sets.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = sets[middle].First < first ? (middle + 1, high) : (low, middle);
        }

        var (count, last) = (0, -1);
        for (; low < sets.Count && sets[low].End <= end; low++)
        {
            if (sets[low].First > last)
            {
                count++;
                last = sets[low].End - 1;
            }
        }

        return count;
    }

    /// <summary>Whether an interval may be on beside those that are.</summary>
    public bool LetsOn(int car, bool[] on, int interval)
    {
        foreach (var (first, end) in NotAllOn[car])
        {
            if (first > interval)
            {
                break;
            }

            if (end > interval && Enumerable.Range(first, end - first).All(i => i == interval || on[i]))
            {
                return false;
            }
        }

        return true;
    }

    private double BudgetKwh(DemandWindow window, double averageKw)
    {
        var budget = averageKw * window.Total;
        for (var k = 0; k < window.Hours.Length; k++)
        {
            budget -= Math.Max(0, model.BaseKw[window.First + k]) * window.Hours[k];
        }

        return Math.Max(0, budget);
    }

    private void Add(DemandWindow window, double budget)
    {
        for (var k = 0; k < window.Hours.Length; k++)
        {
            var i = window.First + k;
            MostKw[i] = Math.Min(MostKw[i], (budget / window.Hours[k]) + Surplus(i));
        }

        for (var c = 0; c < model.Cars.Length; c++)
        {
            foreach (var (first, end) in model.Cars[c].Stays)
            {
                AddSets(c, first, end, window, budget);
            }
        }
    }

    private void AddSets(int c, int first, int end, DemandWindow window, double budget)
    {
        var car = model.Cars[c];
        var (from, until) = (Math.Max(window.First, first + 1), Math.Min(window.First + window.Hours.Length, end - 1));
        var (a, sum) = (from, 0.0);
        for (var b = from; b < until; b++)
        {
            if (car.MostKw[b] <= 0)
            {
                (a, sum) = (b + 1, 0);
                continue;
            }

            sum += NeedKwh(b);
            while (sum > budget + Nothing && a <= b)
            {
                // All of a to b throughout is too much: with both neighbours not all can be on.
                if (sum - NeedKwh(a) <= budget + Nothing && car.MostKw[a - 1] > 0 && car.MostKw[b + 1] > 0)
                {
                    NotAllOn[c].Add((a - 1, b + 2));
                }

                sum -= NeedKwh(a++);
            }
        }

        double NeedKwh(int i) => Math.Max(0, car.LeastKw[i] - Surplus(i)) * window.Hours[i - window.First];
    }

    private double Surplus(int i) => Math.Max(0, -model.BaseKw[i]);

    private static void KeepSmallest(List<(int First, int End)> sets)
    {
        sets.Sort((a, b) => a.End != b.End ? a.End.CompareTo(b.End) : b.First.CompareTo(a.First));
        var latest = -1;
        sets.RemoveAll(set =>
        {
            var within = set.First <= latest;
            latest = Math.Max(latest, set.First);
            return within;
        });
    }
}
