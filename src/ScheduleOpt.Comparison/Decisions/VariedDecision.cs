using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.Uncertainty;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Runs a decision again with one input changed at a time, all its cells.</summary>
internal sealed class VariedDecision
{
    private readonly DecisionCase question;
    private readonly IReadOnlyList<UncertainInput> inputs;

    public VariedDecision(DecisionCase question)
    {
        this.question = question;
        inputs =
        [
            ProposedInputs.Distance, ProposedInputs.Consumption, ProposedInputs.WinterPenalty, ProposedInputs.MissedNights,
            .. question.LifeCycle is { } asked ? new[] { Escalation((double)asked.EnergyPrices.Escalation) } : [],
        ];
    }

    /// <summary>How many runs of the year it takes beside the first.</summary>
    public int Runs => inputs.Where(i => i.Name != EscalationName).Sum(i => (i.Low != i.Mid ? 1 : 0) + (i.High != i.Mid ? 1 : 0));

    private static string EscalationName => ProposedInputs.PriceEscalation().Name;

    /// <summary>Runs it; the figure is what the cell costs that came first.</summary>
    public Tornado Run(DecisionResult result, StagedProgress? progress, CancellationToken cancellation)
    {
        var first = result.Ranked.First().Name;
        return Tornado.Run(inputs, Outcome, cancellation);

        UncertainOutcome Outcome(IReadOnlyDictionary<string, double> values)
        {
            // Escalation leaves the year as it is, and so does everything at its middle.
            var touchesYear = inputs.Any(i => i.Name != EscalationName && values[i.Name] != i.Mid);
            if (touchesYear)
            {
                progress?.Next();
            }

            var cells = touchesYear ? YearComparison.Run(VariedYear.Of(question.Year, values), progress, cancellation).Cells : result.Year.Cells;
            var varied = question.LifeCycle is { } asked && values.TryGetValue(EscalationName, out var escalation)
                && escalation != (double)asked.EnergyPrices.Escalation
                ? question with { LifeCycle = asked with { EnergyPrices = EnergyPricePath.Escalating((decimal)escalation, "varied") } }
                : question;
            var money = DecisionMoney.Of(varied, cells);
            return new UncertainOutcome(
                money.Single(c => c.Name == first).Cost,
                money.Where(c => c.Rank is not null).OrderBy(c => c.Rank).First().Name.Words);
        }
    }

    // None, the household's own and twice that, at least 2 % a year: the base case stays in the middle.
    private static UncertainInput Escalation(double mid) =>
        ProposedInputs.PriceEscalation() with { Low = Math.Min(0, mid), Mid = mid, High = Math.Min(0.10, Math.Max(0.02, 2 * mid)) };
}
