using ScheduleOpt.Comparison.Behaviours;

namespace ScheduleOpt.Comparison.Year;

/// <summary>Works out a comparison of set-ups, rate plans and behaviours over one year.</summary>
public static class YearComparison
{
    /// <summary>Runs the comparison. Equal cases give equal results, whatever the number of cores.</summary>
    /// <param name="question">The case.</param>
    /// <param name="progress">Told after each part, on any thread.</param>
    /// <param name="cancellation">Gives up between parts.</param>
    /// <exception cref="ArgumentException">No set-up, no behaviour, no whole-house rate plan, names that occur twice, several currencies, a
    /// negative price of public charging or a grid step that is not offered.</exception>
    public static YearResult Run(
        YearCase question, IProgress<YearProgress>? progress = null, CancellationToken cancellation = default)
    {
        YearCaseCheck.ThrowIfContradictory(question);
        var frame = new YearFrame(question);
        var options = new ParallelOptions { CancellationToken = cancellation };
        var count = new ProgressCount(progress, question.RatePlans.Count + YearTask.PartsOf(question));
        var plans = PlanYears.Of(frame, options, count);
        var tasks = YearTask.Of(frame, plans).ToArray();

        // A simulation is billed and dropped at once: a large comparison would otherwise hold a year's series for each.
        var cells = new YearCell[tasks.Length][];
        Parallel.For(0, tasks.Length, options, i =>
        {
            var task = tasks[i];
            var run = task.Run(frame);
            cells[i] = [.. task.Plans.Select(plan => Cell(frame, task, run, plan))];
            count.Step(task.Parts);
        });

        return new YearResult(
            frame.Span.Start,
            frame.Span.End,
            question.RatePlans[0].Currency,
            frame.ColdestWeek,
            Ranked(InOrder(cells.SelectMany(c => c), question)),
            [.. frame.Warnings, .. plans.Where(p => p.HousePlan is not null).Select(p =>
                $"The rate plan {p.Plan.Id} is for the car's own meter: the house stays on {p.HousePlan!.Id}, and both customer charges count.")]);
    }

    private static YearCell Cell(YearFrame frame, YearTask task, YearRun run, PlanYear plan)
    {
        var bill = plan.BillWith(run.Car);
        var correction = run.Correction(frame, plan, bill);
        IEnumerable<string> corrected = correction.Applies
            ? [FormattableString.Invariant(
                $"The year ends {Math.Abs(correction.MissingKwh):0.0} kWh {(correction.MissingKwh > 0 ? "below" : "above")} its start: ")
                + "corrected at the cell's mean price per stored kWh."]
            : [];
        return new YearCell
        {
            SetUp = task.SetUp,
            RatePlan = plan.Plan,
            HousePlan = plan.HousePlan,
            Behaviour = task.Behaviour,
            BillWithCar = bill,
            BillWithoutCar = plan.BillWithoutCar,
            Energy = run.Energy,
            Away = run.Away,
            Readiness = run.Readiness,
            ColdestWeek = run.ColdestWeek,
            ColdestWeekDays = run.ColdestWeekDays,
            ShortDays = run.ShortDays,
            EndCorrection = correction,
            BoundCost = plan.Least.HasBound ? run.Bound?.WholeHouse(frame, plan, correction) : null,
            Warnings = [.. run.Warnings.Concat(task.Behaviour is null or UnaidedBehaviour ? [] : plan.Prices.Warnings).Concat(bill.Warnings).Concat(corrected).Distinct()],
        };
    }

    private static YearCell[] InOrder(IEnumerable<YearCell> cells, YearCase question)
    {
        var setUps = question.SetUps.Select((s, i) => (s.Name, i)).ToDictionary(s => s.Name, s => s.i);
        var plans = question.RatePlans.Select((p, i) => (p.Id, i)).ToDictionary(p => p.Id, p => p.i);

        // Stable: the behaviours of a set-up stay in the order of the case.
        return [.. cells.OrderBy(c => setUps[c.SetUp.Name]).ThenBy(c => plans[c.RatePlan.Id])];
    }

    private static YearCell[] Ranked(YearCell[] cells)
    {
        var rank = new Dictionary<decimal, int>();
        foreach (var (cell, i) in cells.OrderBy(c => c.WholeHouseCost).Select((c, i) => (c, i)))
        {
            rank.TryAdd(cell.WholeHouseCost, i + 1);
        }

        return [.. cells.Select(cell => cell with { Rank = rank[cell.WholeHouseCost] })];
    }
}
