using ScheduleOpt.Tariffs.Billing;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>The unrounded statement of the expected use of one billing period, and what it says about prices.</summary>
/// <param name="Lines">Its lines.</param>
/// <param name="Percentages">How each percentage came out.</param>
/// <param name="BilledKw">Billed power of each demand charge, what was metered so far included. [kW]</param>
/// <param name="DemandSoFarKw">Highest average power metered so far, by demand charge. [kW]</param>
/// <param name="CreditBeyondDue">Export credit that could be used less what it could be used for; none where no credit is banked. [currency]</param>
/// <param name="Stack">What percentages make of one more unit of money.</param>
internal sealed record ExpectedStatement(
    IReadOnlyList<BillLine> Lines,
    IReadOnlyList<PercentageOutcome> Percentages,
    IReadOnlyDictionary<string, decimal> BilledKw,
    IReadOnlyDictionary<string, decimal> DemandSoFarKw,
    decimal? CreditBeyondDue,
    PercentageStack Stack)
{
    /// <summary>What percentages make of one unit of money less, where prices are at their least; otherwise <see cref="Stack"/>.</summary>
    public PercentageStack Greatest { get; init; } = Stack;

    /// <summary>Whether the minimum bill is no term.</summary>
    public bool IsMinimumLeftOut { get; init; }

    private static readonly IReadOnlyDictionary<string, decimal> NoDemand = new Dictionary<string, decimal>();

    public static ExpectedStatement Of(PlanLayout layout, PeriodUse use, CarriedState carried, IReadOnlyDictionary<string, decimal>? demandSoFarKw = null)
    {
        var builder = new StatementBuilder(layout, use, carried);
        var statement = builder.Build(0, null, []);
        var soFar = demandSoFarKw ?? NoDemand;
        var billed = builder.BilledKw.ToDictionary(b => b.Key, b => Math.Max(b.Value, soFar.GetValueOrDefault(b.Key)));
        return new(statement.Lines, builder.Percentages, billed, soFar, builder.CreditBeyondDue, new(builder.Percentages));
    }
}
