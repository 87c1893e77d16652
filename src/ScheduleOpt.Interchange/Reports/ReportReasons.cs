using System.Globalization;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Why the first comes first, and what would flip the ranking.</summary>
internal static class ReportReasons
{
    /// <summary>Writes both sections.</summary>
    public static void Write(HtmlPage page, ComparisonRequest request, DecisionResult decided, ShownUnits units)
    {
        var currency = decided.Year.Currency;
        page.Element("h2", "Why");
        if (decided.Whys.Count == 0)
        {
            page.Say("There is nothing to hold the first against.");
        }

        foreach (var why in decided.Whys)
        {
            page.Element("h3", $"The first against {Against(why.Against)}: {ReportWords.Of(why.Waterfall.Second.Cell)}");
            page.Table(
                "What the other costs more a year; parts that are equal are left out",
                ["Part", $">{currency} a year"],
                [
                    .. why.Waterfall.Steps.Where(s => s.Amount != 0).Select(s => (IReadOnlyList<string>)[ReportWords.Of(s.Part), ReportWords.Figure(s.Amount, currency)]),
                    ["all", ReportWords.Figure(why.Waterfall.Difference, currency)],
                ]);
        }

        if (decided.Whys.Count > 0)
        {
            var shown = decided.Whys.FirstOrDefault(w => w.Against == "nextChoice") ?? decided.Whys[0];
            ReportFigure.Add(page, () => ReportCharts.Steps(shown.Waterfall, currency), $"What {Against(shown.Against)} costs more, part by part.");
            page.Say(
                "Losses are priced at the mean of what a kWh of the car costs in energy charges; the split between them and the car's energy is a convention. "
                + (request.Decision.LifeCycle is null ? "Install is left out: life-cycle cost was not asked for." : "Install is the net first cost as an equal amount a year."),
                "small");
        }

        page.Element("h2", "What would flip the ranking");
        Flips(page, decided, units.Distance);
        Swings(page, decided, currency);
    }

    private static void Flips(HtmlPage page, DecisionResult decided, DistanceUnit unit)
    {
        if ((unit == DistanceUnit.Mile ? decided.Flips?.InMiles() : decided.Flips) is not { } flips)
        {
            page.Say("Break-evens were not asked for.");
            return;
        }

        page.Say($"First: {ReportWords.Of(decided, flips.First)}. Second: {ReportWords.Of(decided, flips.Second)}.")
            .List(flips.Axes.Select(a => a.Wording).Concat(flips.LeftOut))
            .Say("Distance runs the year anew at each place. Along the other axes everything else is held, also what the household would do at other prices.", "small");
    }

    private static void Swings(HtmlPage page, DecisionResult decided, string currency)
    {
        if (decided.Uncertainty is not { } tornado)
        {
            page.Say("Uncertain inputs were not varied: that was not asked for.");
            return;
        }

        page.Table(
            "One input at a time: what the first costs, and whether something else would come first",
            ["Input", ">Low", ">High", $">At low, {currency}", $">At high, {currency}", "First at low or high"],
            tornado.Bars.Select(b => (IReadOnlyList<string>)
            [
                b.Input.Name, ReportWords.Of(b.Input, b.Input.Low), ReportWords.Of(b.Input, b.Input.High), ReportWords.Figure(b.Low.Amount, currency),
                ReportWords.Figure(b.High.Amount, currency),
                b.FlipsRanking ? string.Join("; ", new[] { b.Low.First, b.High.First }.Where(f => f != tornado.Base.First).Distinct().Select(f => ReportWords.Of(decided, f))) : "the same",
            ]));
        ReportFigure.Add(page, () => ReportCharts.Swings(tornado, currency), "From the least to the most, one input at a time; a darker bar puts something else first.");
        page.List(tornado.Bars.Select(b => $"{b.Input.Name}: {b.Input.Basis}."))
            .Say("Inputs that move together are not seen by this.", "small");
    }

    private static string Against(string word) => word switch
    {
        "second" => "the second",
        "nextChoice" => "the best with another set-up or rate plan",
        _ => "today",
    };
}
