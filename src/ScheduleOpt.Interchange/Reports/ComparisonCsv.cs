using System.Globalization;
using System.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Writes a comparison as a table, one line a cell (RFC 4180, UTF-8).</summary>
/// <remarks>A text that a spreadsheet would take for a formula gets an apostrophe in front: OWASP, CSV injection.</remarks>
public static class ComparisonCsv
{
    private const string Formula = "=+-@\t\r\n";

    private static readonly (string Head, Func<DecisionCell, object?> Of)[] Columns =
    [
        ("set_up", c => c.Year.SetUp.Name),
        ("rate_plan", c => c.Year.RatePlan.Id),
        ("behaviour", c => c.Year.Behaviour?.Name),
        ("rank", c => c.Rank),
        ("whole_house_cost", c => c.Year.WholeHouseCost),
        ("car_cost", c => c.Year.CarCost),
        ("bill_with_car", c => c.Year.BillWithCar.Total),
        ("bill_without_car", c => c.Year.BillWithoutCar.Total),
        ("away_cost", c => c.Year.Away.Cost),
        ("end_correction", c => c.Year.EndCorrection.Cost),
        ("home_wall_kwh", c => Kwh(c.Year.Energy.HomeWallKwh)),
        ("home_loss_kwh", c => Kwh(c.Year.Energy.HomeLossKwh)),
        ("away_kwh", c => Kwh(c.Year.Away.Kwh)),
        ("departures", c => c.Year.Readiness.Departures),
        ("ready", c => c.Year.Readiness.Ready),
        ("short_days", c => c.Year.ShortDays.Count),
        ("first_cost", c => Cent(c.LifeCycle?.Alternative.Investment)),
        ("life_cycle_cost", c => Cent(c.LifeCycle?.Alternative.Total)),
        ("net_savings", c => Cent(c.LifeCycle?.NetSavings)),
        ("savings_to_investment_ratio", c => Rounded(c.LifeCycle?.SavingsToInvestmentRatio, 4)),
        ("simple_payback_years", c => Years(c.LifeCycle?.SimplePayback)),
        ("discounted_payback_years", c => Years(c.LifeCycle?.DiscountedPayback)),
    ];

    /// <summary>Writes the table.</summary>
    public static byte[] Write(ComparisonRequest request, DecisionResult decided)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(decided);
        var text = new StringBuilder();
        text.AppendJoin(',', Columns.Select(c => c.Head)).Append(",currency,version,input_hash\r\n");
        foreach (var cell in decided.Cells)
        {
            text.AppendJoin(',', Columns.Select(c => Field(c.Of(cell))))
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
