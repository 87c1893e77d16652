using System.Globalization;
using System.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Writes a comparison as a table, one line a cell (RFC 4180, UTF-8).</summary>
/// <remarks>A text that a spreadsheet would take for a formula gets an apostrophe in front: OWASP, CSV injection.</remarks>
public static class ComparisonCsv
{
    private const string Formula = "=+-@\t\r\n";

    private static readonly (string Head, Func<DecisionCell, WinterCell?, object?> Of)[] Columns =
    [
        ("set_up", (c, _) => c.Year.SetUp.Name),
        ("rate_plan", (c, _) => c.Year.RatePlan.Id),
        ("behaviour", (c, _) => c.Year.Behaviour?.Name),
        ("rank", (c, _) => c.Rank),
        ("whole_house_cost", (c, _) => c.Year.WholeHouseCost),
        ("whole_house_cost_median", (_, w) => Cent(w?.WholeHouseCost.Median)),
        ("whole_house_cost_least", (_, w) => Cent(w?.WholeHouseCost.Least)),
        ("whole_house_cost_most", (_, w) => Cent(w?.WholeHouseCost.Most)),
        ("bound_cost", (c, _) => Cent(c.Year.BoundCost)),
        ("car_cost", (c, _) => c.Year.CarCost),
        ("bill_with_car", (c, _) => c.Year.BillWithCar.Total),
        ("bill_without_car", (c, _) => c.Year.BillWithoutCar.Total),
        ("away_cost", (c, _) => c.Year.Away.Cost),
        ("end_correction", (c, _) => c.Year.EndCorrection.Cost),
        ("home_wall_kwh", (c, _) => Kwh(c.Year.Energy.HomeWallKwh)),
        ("home_loss_kwh", (c, _) => Kwh(c.Year.Energy.HomeLossKwh)),
        ("away_kwh", (c, _) => Kwh(c.Year.Away.Kwh)),
        ("public_sessions", (c, _) => c.Year.Away.Sessions?.Sessions),
        ("detour_hours", (c, _) => c.Year.Away.Sessions is { } s ? Kwh(s.DetourHours) : null),
        ("departures", (c, _) => c.Year.Readiness.Departures),
        ("ready", (c, _) => c.Year.Readiness.Ready),
        ("short_days", (c, _) => c.Year.ShortDays.Count),
        ("coldest_week_departures", (c, _) => c.Year.ColdestWeek.Departures),
        ("coldest_week_ready", (c, _) => c.Year.ColdestWeek.Ready),
        ("short_days_most", (_, w) => Rounded(w?.ShortDays.Most, 1)),
        ("stressed_week_ready", (_, w) => w?.Stressed?.Sum(d => d.Readiness.Ready)),
        ("house_plan", (c, _) => c.Year.HousePlan?.Id),
        ("first_cost", (c, _) => Cent(c.LifeCycle?.Alternative.Investment)),
        ("life_cycle_cost", (c, _) => Cent(c.LifeCycle?.Alternative.Total)),
        ("net_savings", (c, _) => Cent(c.LifeCycle?.NetSavings)),
        ("savings_to_investment_ratio", (c, _) => Rounded(c.LifeCycle?.SavingsToInvestmentRatio, 4)),
        ("simple_payback_years", (c, _) => Years(c.LifeCycle?.SimplePayback)),
        ("discounted_payback_years", (c, _) => Years(c.LifeCycle?.DiscountedPayback)),
        ("rate_plan_name", (c, _) => c.Year.RatePlan.Name),
    ];

    /// <summary>Writes the table.</summary>
    public static byte[] Write(ComparisonRequest request, DecisionResult decided)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(decided);
        var text = new StringBuilder();
        text.AppendJoin(',', Columns.Select(c => c.Head)).Append(",currency,version,input_hash\r\n");
        foreach (var (cell, i) in decided.Cells.Select((c, i) => (c, i)))
        {
            text.AppendJoin(',', Columns.Select(c => Field(c.Of(cell, decided.Winters?.Cells[i]))))
                .Append(',').Append(decided.Year.Currency)
                .Append(',').Append(ProgramVersion.Text)
                .Append(',').Append(request.InputHash).Append("\r\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    /// <summary>A text as a field that no spreadsheet takes for a formula.</summary>
    internal static string Text(string text)
    {
        var safe = text.Length > 0 && Formula.Contains(text.TrimStart(' ') is { Length: > 0 } rest ? rest[0] : text[0], StringComparison.Ordinal) ? $"'{text}" : text;
        return safe.AsSpan().IndexOfAny("\",\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }

    private static string Field(object? value) => value switch
    {
        null => "",
        string text => Text(text),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => "",
    };

    private static decimal Kwh(double kwh) => (decimal)Math.Round(kwh, 3) + 0m;

    private static decimal? Cent(decimal? amount) => Rounded(amount, 2);

    private static decimal? Rounded(decimal? number, int digits) =>
        number is { } value ? Math.Round(value, digits, MidpointRounding.AwayFromZero) + 0m : null;

    private static decimal? Years(Payback? payback) =>
        payback is { Outcome: PaybackOutcome.PaidBack, Years: { } years } ? (decimal)Math.Round(years, 3) : null;
}
