using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Step 3: among schedules of all but the same cost, fewest windows, then least ageing price on dwell, then the earliest end.</summary>
/// <remarks>A search, not a proof: in each stay before the second departure the cheapest single window is tried, then one window after the other is joined to its
/// neighbour or filled up to it, and the programme is solved again.</remarks>
internal static class FewerWindows
{
    // Each is one small linear programme; on a fine grid a large one.
    private const int MostTrials = 10;
    private const int MostTrialsOnFineGrid = 3;
    private const int FineGrid = 250;

    // However much work the search before has taken.
    private const int TrialsAnyway = 2;

    public static RunnableSchedule Of(RunnableSearch search, HouseholdModel model, ShortfallOrder order, SolveLimit limit)
    {
        var (chosen, on) = (search.Best!, search.BestOn!);
        var most = Most(chosen);
        var least = chosen.Shortfalls;
        var trials = 0;
        var mostTrials = model.Problem.Count * model.Cars.Length > FineGrid ? MostTrialsOnFineGrid : MostTrials;
        bool MayTry() => trials < TrialsAnyway || limit.MayGoOn;

        for (var index = 0; index < model.Cars.Length; index++)
        {
            var c = index;
            foreach (var (first, end) in model.Cars[c].Stays.Where(s => s.First < model.Cars[c].IntegersUntil))
            {
                // One window before all: it is the fewest.
                if (trials < mostTrials && MayTry() && WindowRules.Windows(on[c], first, end).Count() > 1)
                {
                    TryFewer(joined => CheapestBlock.Put(model, joined, c, first, end, StoredIn(model, chosen, c, first, end)));
                }

                while (trials < mostTrials && MayTry() && WindowRules.Windows(on[c], first, end).Count() is var windows and > 1)
                {
                    if (!TryFewer(joined => WindowRules.Keep(model, joined, c, first, end, windows - 1)))
                    {
                        break;
                    }
                }

                bool TryFewer(Action<bool[][]> join)
                {
                    trials++;
                    var joined = on.Select(car => car.ToArray()).ToArray();
                    join(joined);
                    WindowRules.Keep(model, joined, c, first, end);
                    if (search.Try(joined) is not { } found || found.Objective > most || found.Shortfalls.Compare(least, model, order) > 0 || !IsBetter(found, chosen, model))
                    {
                        return false;
                    }

                    (chosen, on) = (found, joined);
                    return true;
                }
            }
        }

        // A trial may have found a better objective as well: windows decide only among what is all but as good.
        var best = search.Best!;
        return chosen.Objective > Most(best) || chosen.Shortfalls.Compare(best.Shortfalls, model, order) > 0 || IsBetter(best, chosen, model) ? best : chosen;
    }

    private static double StoredIn(HouseholdModel model, RunnableSchedule run, int c, int first, int end) =>
        Enumerable.Range(first, end - first).Sum(i => model.Cars[c].NetKw(i, run.Powers.WallKw[c][i], run.Powers.Share[c][i]) * model.Problem.Hours[i]);

    /// <summary>What may be given up for fewer windows.</summary>
    internal static double Most(RunnableSchedule run) =>
        run.Objective + Math.Max(WindowPlanner.GiveUpAtLeast, WindowPlanner.GiveUpShare * Math.Abs(run.Objective));

    private static bool IsBetter(RunnableSchedule run, RunnableSchedule other, HouseholdModel model)
    {
        const double same = 1e-9;
        var (mine, theirs) = (Measure(run, model), Measure(other, model));
        return mine.Windows != theirs.Windows ? mine.Windows < theirs.Windows
            : Math.Abs(mine.Dwell - theirs.Dwell) > same ? mine.Dwell < theirs.Dwell
            : mine.End < theirs.End;
    }

    private static (int Windows, double Dwell, int End) Measure(RunnableSchedule run, HouseholdModel model)
    {
        var (windows, dwell, last) = (0, 0.0, 0);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            var car = model.Cars[c];
            bool[] on = [.. run.Powers.Share[c].Select(share => share > 1e-6)];
            foreach (var (first, end) in car.Stays.Where(s => s.First < car.IntegersUntil))
            {
                foreach (var window in WindowRules.Windows(on, first, end))
                {
                    windows++;
                    last = Math.Max(last, window.End);
                }

                for (var i = first; i < end; i++)
                {
                    dwell += Dwell.Price(car.Car.Problem, i, (run.StoredKwh[c][i] + run.StoredKwh[c][i + 1]) / 2, model.Problem.Hours[i]);
                }
            }
        }

        return (windows, dwell, last);
    }
}
