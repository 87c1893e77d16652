using ScheduleOpt.Tariffs.Billing;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>The unrounded statement of the expected use of one billing period, and what it says about prices.</summary>
/// <param name="Lines">Its lines.</param>
/// <param name="Percentages">How each percentage came out.</param>
/// <param name="BilledKw">Billed power of each demand charge. [kW]</param>
/// <param name="CreditBeyondDue">Export credit that could be used less what it could be used for; none where no credit is banked. [currency]</param>
/// <param name="Stack">What percentages make of one more unit of money.</param>
internal sealed record ExpectedStatement(
    IReadOnlyList<BillLine> Lines,
    IReadOnlyList<PercentageOutcome> Percentages,
    IReadOnlyDictionary<string, decimal> BilledKw,
    decimal? CreditBeyondDue,
    PercentageStack Stack)
{
    public static ExpectedStatement Of(PlanLayout layout, PeriodUse use, CarriedState carried)
    {
        var builder = new StatementBuilder(layout, use, carried);
        var statement = builder.Build(0, null, []);
        return new(statement.Lines, builder.Percentages, builder.BilledKw, builder.CreditBeyondDue, new(builder.Percentages));
    }
}
