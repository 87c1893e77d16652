using ScheduleOpt.Comparison.Seasons;
using ScheduleOpt.Comparison.Waterfalls;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Works out a decision: the year, its money, why, and what would change it.</summary>
public static class Decision
{
    /// <summary>Runs it. Equal cases give equal results, whatever the number of cores.</summary>
    /// <param name="question">The case; <see cref="DecisionCheck"/> finds nothing in it.</param>
    /// <param name="progress">Told after each part, on any thread.</param>
    /// <param name="cancellation">Gives up between parts.</param>
    /// <exception cref="ArgumentException">The case contradicts itself.</exception>
    public static DecisionResult Run(
        DecisionCase question, IProgress<YearProgress>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        var found = DecisionCheck.Contradictions(question);
        if (found.Count > 0)
        {
            throw new ArgumentException(string.Join(' ', found), nameof(question));
        }

        var varied = question.Uncertainty ? new VariedDecision(question) : null;
        var stages = progress is null ? null : new StagedProgress(
            progress, 1 + (varied?.Runs ?? 0) + (question.Winters ? WinterComparison.FurtherRuns(question.Year) : 0));
        // Where the car has a meter of its own, the house stays on what it has today.
        if (question.Year.HousePlan is null && question.Today?.RatePlan is { } today && question.Year.RatePlans.Any(p => p.Id == today && p.Metering == Metering.WholeHouse))
        {
            question = question with { Year = question.Year with { HousePlan = today } };
        }

        var year = YearComparison.Run(question.Year, stages, cancellation);
        var cells = DecisionMoney.Of(question, year.Cells);
        var result = new DecisionResult
        {
            Year = year,
            Cells = cells,
            SetUps = [.. question.SetUps.Select(s => Outlook(question, s))],
            Whys = [],
        };
        DecisionCell[] ranked = [.. result.Ranked];
        var winters = question.Winters ? WinterComparison.Run(question.Year, year, () => stages?.Next(), stages, cancellation) : null;
        return result with
        {
            Whys = [.. WhysOf(question, ranked)],
            Winters = winters,
            Flips = question.BreakEvens && NextChoice(ranked) is { } next ? FlipSearch.Run(question, ranked[0], next, cancellation) : null,
            Uncertainty = varied?.Run(result, stages, cancellation),
        };
    }

    /// <summary>The best cell with another set-up or rate plan than the first; none where there is no other.</summary>
    private static DecisionCell? NextChoice(DecisionCell[] ranked) => ranked.FirstOrDefault(
        c => c.Year.SetUp.Name != ranked[0].Year.SetUp.Name || c.Year.RatePlan.Id != ranked[0].Year.RatePlan.Id);

    private static SetUpOutlook Outlook(DecisionCase question, OfferedSetUp offered)
    {
        var year = question.Year;
        return new SetUpOutlook(
            offered,
            offered.SetUp.Supply is { } supply
                ? SeasonOutlook.Of(year.Vehicle, supply, year.Calendar, year.Weather, year.Zone, year.Year)
                : [],
            offered.SetUp.Supply is { } panelled ? question.Panel?.For(panelled) : null);
    }

    private static IEnumerable<Why> WhysOf(DecisionCase question, DecisionCell[] ranked)
    {
        if (ranked.Length < 2)
        {
            yield break;
        }

        var first = Side(ranked[0]);
        yield return new Why("second", Waterfall.Of(first, Side(ranked[1])));
        if (NextChoice(ranked) is { } next && next.Name != ranked[1].Name)
        {
            yield return new Why("nextChoice", Waterfall.Of(first, Side(next)));
        }

        if (question.Today is { } today && ranked.FirstOrDefault(c => c.Name == today) is { } now && now.Name != ranked[0].Name)
        {
            yield return new Why("today", Waterfall.Of(first, Side(now)));
        }
    }

    private static WaterfallSide Side(DecisionCell cell) => new(cell.Year, cell.InstallPerYear);
}
