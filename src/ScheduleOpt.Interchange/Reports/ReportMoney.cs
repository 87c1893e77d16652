using System.Globalization;
using NodaTime.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Money over the years.</summary>
internal static class ReportMoney
{
    private const int MostRows = 12;

    /// <summary>Writes the section.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided)
    {
        var currency = decided.Year.Currency;
        page.Element("h2", "Money");
        if (request.Decision.LifeCycle is not { } asked)
        {
            page.Say("Life-cycle cost was not asked for: the ranking is by the year's cash alone.");
        }
        else
        {
            Terms(page, ReportWords.Of(decided, request.Decision.Today!), asked);
            DecisionCell[] shown = [.. decided.Ranked.DistinctBy(c => (c.Year.SetUp.Name, c.Year.RatePlan.Id)).Take(MostRows)];
            Table(page, $"Present values at the discount rate, {currency}: the best behaviour of each set-up and rate plan", shown, c => c.LifeCycle!, currency);
            if (asked.Terms.Loan is not null)
            {
                Table(page, $"The same at the loan's real rate, {currency}", shown, c => c.AtLoanRate!, currency);
            }

            page.Say(
                "Conventions of NIST Handbook 135 and 10 CFR 436, subpart A: constant money, the same study period and base date for all, amounts at the end of each year. The least "
                + "life-cycle cost ranks; ratio and payback only say whether one beats today. Simple payback leaves discounting out and is a rough measure.",
                "small");
        }

        FirstCosts(page, request, decided, currency);
    }

    private static void Terms(HtmlPage page, string today, LifeCycleQuestion asked)
    {
        page.List(
        [
            $"Reference case: today's {today}. Its set-up is there already.",
            $"Study period: {asked.Terms.Study.Years} years from {LocalDatePattern.Iso.Format(asked.Terms.Study.BaseDate)}.",
            $"Discount rate: {asked.Terms.Rate.Basis}.",
            $"Energy prices: {asked.EnergyPrices.Basis}.",
            .. asked.Terms.Loan is { } loan ? [$"Financed: {DiscountRate.Of(loan).Basis}."] : Array.Empty<string>(),
        ]);
    }

    private static void Table(HtmlPage page, string caption, DecisionCell[] cells, Func<DecisionCell, LifeCycleResult> of, string currency) => page.Table(
        caption,
        ["<Set-up", "Rate plan", ">First cost", ">Incentives", ">Life-cycle cost", ">Net savings", ">SIR", "Simple payback", "Discounted payback"],
        cells.Select(c =>
        {
            var result = of(c);
            return (IReadOnlyList<string>)
            [
                c.Year.SetUp.Name, c.Year.RatePlan.Name, ReportWords.Figure(result.Alternative.Investment, currency),
                ReportWords.Figure(result.Alternative.OneTimeIncentives + result.Alternative.YearlyIncentives, currency),
                ReportWords.Figure(result.Alternative.Total, currency), ReportWords.Figure(result.NetSavings, currency),
                result.SavingsToInvestmentRatio is { } ratio ? ratio.ToString("0.00", CultureInfo.InvariantCulture) : "–",
                ReportWords.Of(result.SimplePayback), ReportWords.Of(result.DiscountedPayback),
            ];
        }));

    private static void FirstCosts(HtmlPage page, ComparisonRequest request, DecisionResult decided, string currency)
    {
        var rows = decided.SetUps.SelectMany(s => s.Offered.Chosen.Costs.Select(c => (IReadOnlyList<string>)
            [s.Offered.SetUp.Name, c.Name, ReportWords.Figure(c.Figure.Value, currency), c.Figure.Note])).ToArray();
        if (rows.Length > 0)
        {
            page.Table($"First costs, {currency}", ["<Set-up", "Part", ">Amount", "Whose figure"], rows);
        }

        if (decided.SetUps.Any(s => s.Offered.Chosen.HasPlanningFigures))
        {
            page.Say(PublishedRanges.NoSingleAverage, "small");
        }

        var incentives = decided.SetUps.SelectMany(s => s.Offered.Incentives.Select(i => (IReadOnlyList<string>)
            [
                s.Offered.SetUp.Name, i.Name, ReportWords.Figure(i.Amount, currency), $"{i.Source}, read {LocalDatePattern.Iso.Format(i.AsOf)}", InForce(request, i),
            ])).ToArray();
        if (incentives.Length > 0)
        {
            page.Table($"Incentives, {currency}", ["<Set-up", "Incentive", ">Amount", "Source", "On the base date"], incentives);
        }
    }

    private static string InForce(ComparisonRequest request, Incentive incentive) => request.Decision.LifeCycle is not { } asked ? "not asked"
        : incentive.IsInForceOn(asked.Terms.Study.BaseDate) ? "in force" : "not in force: counts nothing";
}
