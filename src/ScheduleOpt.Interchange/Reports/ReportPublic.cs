using System.Globalization;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Public charging alone: its sessions, and the time that they take.</summary>
internal static class ReportPublic
{
    /// <summary>Writes the part; nothing where no set-up charges in public sessions.</summary>
    public static void Write(HtmlPage page, DecisionResult decided, string currency)
    {
        // The sessions are the same on every rate plan.
        var cells = decided.Cells.Where(c => c.Year.Away.Sessions is not null).DistinctBy(c => c.Year.SetUp.Name).ToArray();
        if (cells.Length == 0)
        {
            return;
        }

        page.Element("h3", "Public charging alone").Table(
            "A year of equal sessions, from the minimum to the ordinary limit; the last one may be smaller",
            ["<Set-up", ">Sessions", ">kWh each", ">Minutes each", $">{currency} each", $">{currency} a year", ">Hours on the way", $">Worth, {currency}"],
            cells.Select(c =>
            {
                var year = c.Year.Away.Sessions!;
                return (IReadOnlyList<string>)
                [
                    c.Year.SetUp.Name, year.Sessions.ToString(CultureInfo.InvariantCulture), ReportWords.Plain(year.Session.MeterKwh, 1), ReportWords.Plain(year.Session.Minutes, 0),
                    ReportWords.Figure(year.Session.Cost, currency), ReportWords.Figure(year.Cost, currency), ReportWords.Plain(year.DetourHours, 1),
                    year.DetourValue is { } value ? ReportWords.Figure(value, currency) : "–",
                ];
            }));
        page.Say("Time is shown in hours; its worth, where the household names one, is in none of the costs.", "small");
    }

    /// <summary>What public charging costs, in a sentence.</summary>
    public static string Price(YearCase question, string currency)
    {
        if (question.Public is not { } place)
        {
            return FormattableString.Invariant($"{question.AwayPricePerKwh:0.####} {currency} per kWh at the public meter");
        }

        var price = place.Price;
        var parts = new[] { (price.PerSession, "a session"), (price.PerKwh, "per kWh"), (price.PerMinute, "per minute"), (price.LeastPerSession ?? 0, "a session at least") }
            .Where(p => p.Item1 > 0).Select(p => FormattableString.Invariant($"{p.Item1:0.####} {currency} {p.Item2}"));
        return FormattableString.Invariant(
            $"{string.Join(", ", parts)}, at {place.PowerKw:0.#} kW; {price.DetourMinutes:0.#} min a session on the way. What a set-up at home lacks costs what a kWh of a full session does, {question.AwayPricePerKwh:0.####} {currency}");
    }
}
