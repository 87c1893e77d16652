using System.Text.Json.Nodes;

namespace ScheduleOpt.SecondBiller;

/// <summary>The statement of one billing period while it is written, with what its lines are worked out from.</summary>
internal sealed class StatementSheet
{
    private readonly List<Line> lines = [];
    private readonly JsonObject rounding;

    public StatementSheet(Context context, BillingPeriod period, List<Piece> pieces)
    {
        (Context, Period, Pieces) = (context, period, pieces);
        rounding = context.Plan.Child("rounding")!;
    }

    public Context Context { get; }

    public BillingPeriod Period { get; }

    public List<Piece> Pieces { get; }

    public IReadOnlyList<Line> Lines => lines;

    /// <summary>Billed kW by demand charge.</summary>
    public Dictionary<string, decimal> BilledKw { get; } = [];

    /// <summary>"Use of the billing period below is the import after these steps." [kWh]</summary>
    public decimal Use => Rounded.Kwh(Pieces.Sum(piece => piece.Import));

    /// <summary>"each: line: each line is rounded when it is made, and what builds on it sees the rounded line."</summary>
    public void Add(string part, string name, decimal amount, string? layer = null, bool isPercentage = false) =>
        lines.Add(new(part, name, rounding.Text("each") == "line" ? Round(amount) : amount, layer, isPercentage));

    /// <summary>"each: bill: the sum of all lines is rounded, and the difference is a line".</summary>
    public void Close()
    {
        if (rounding.Text("each") == "bill")
        {
            var sum = lines.Sum(line => line.Amount);
            lines.Add(new(Parts.Rounding, "", Round(sum) - sum));
        }
    }

    /// <summary>"halfUp is away from zero, for negative amounts too."</summary>
    private decimal Round(decimal amount) => Math.Round(
        amount,
        rounding.Integer("decimals") ?? 2,
        rounding.Text("mode") == "halfEven" ? MidpointRounding.ToEven : MidpointRounding.AwayFromZero);

    /// <summary>The lines of parts, and of charges by name, each line once.</summary>
    public decimal SumOf(IEnumerable<string> parts, string[]? charges = null) => lines
        .Where(line => parts.Contains(line.Part) || (!line.IsPercentage && charges?.Contains(line.Name) == true)).Sum(line => line.Amount);

    /// <summary>Units of a charge on its covered days: "`month` months x covered days / days, `day` covered days, `year` the same as month, / 12, `billingPeriod` 1".</summary>
    public decimal Units(string per, decimal covered) => per switch
    {
        "month" => MonthsOn(covered),
        "day" => covered,
        "year" => Rounded.To12(MonthsOn(covered) / 12),
        _ => 1,
    };

    /// <summary>"its units of the whole billing period"</summary>
    public decimal WholeUnits(string per) => Units(per, Period.DayCount);

    /// <summary>"Months x covered / days ... rounded to 12 decimals; where all days are covered months is taken as it is."</summary>
    public decimal MonthsOn(decimal covered) =>
        covered == Period.DayCount ? Period.Months : Rounded.To12(Period.Months * covered / Period.DayCount);

    /// <summary>"With `useBand`: only if overKwh &lt; use of the billing period &lt;= upToKwh."</summary>
    public bool InBand(JsonObject charge) => charge.Child("useBand") is not { } band
        || ((band.Number("overKwh") is not { } over || over < Use) && (band.Number("upToKwh") is not { } upTo || Use <= upTo));
}
