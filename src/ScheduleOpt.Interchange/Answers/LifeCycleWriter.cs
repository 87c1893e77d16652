using System.Text.Json;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes the life-cycle money of a cell, and the terms that all share.</summary>
internal static class LifeCycleWriter
{
    private static readonly (PaybackOutcome Outcome, string Word)[] Words =
    [
        (PaybackOutcome.NothingToPayBack, "nothingToPayBack"), (PaybackOutcome.PaidBack, "paidBack"),
        (PaybackOutcome.PaidBackThenLost, "paidBackThenLost"), (PaybackOutcome.NotInStudyPeriod, "notInStudyPeriod"),
    ];

    /// <summary>Writes the money of a cell as its member <c>lifeCycle</c>.</summary>
    public static void Write(Utf8JsonWriter json, DecisionCell cell, string currency)
    {
        json.WriteStartObject("lifeCycle");
        json.WriteNumber("rank", cell.Rank!.Value);
        WriteResult(json, cell.LifeCycle!, currency);
        if (cell.AtLoanRate is { } atLoan)
        {
            json.WriteStartObject("atLoanRate");
            json.WriteRounded("realRate", (double)atLoan.Alternative.Rate.Real, 6);
            WriteResult(json, atLoan, currency);
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static void WriteResult(Utf8JsonWriter json, LifeCycleResult result, string currency)
    {
        var cost = result.Alternative;
        json.WriteMoney("cost", new Money(cost.Total, currency));
        json.WriteMoney("investment", new Money(cost.Investment, currency));
        json.WriteMoney("incentives", new Money(cost.OneTimeIncentives + cost.YearlyIncentives, currency));
        json.WriteMoney("energy", new Money(cost.Energy, currency));
        json.WriteMoney("replacement", new Money(cost.Replacement, currency));
        json.WriteMoney("salvage", new Money(cost.Salvage, currency));
        json.WriteMoney("netSavings", new Money(result.NetSavings, currency));
        WriteOrNull(json, "savingsToInvestmentRatio", (double?)result.SavingsToInvestmentRatio, 4);
        WriteOrNull(json, "adjustedInternalRateOfReturn", result.AdjustedInternalRateOfReturn, 6);
        WritePayback(json, "simplePayback", result.SimplePayback);
        WritePayback(json, "discountedPayback", result.DiscountedPayback);
    }

    private static void WritePayback(Utf8JsonWriter json, string name, Payback payback)
    {
        json.WriteStartObject(name);
        json.WriteString("outcome", Words.First(w => w.Outcome == payback.Outcome).Word);
        WriteOrNull(json, "years", payback.Years, 3);
        json.WriteEndObject();
    }

    private static void WriteOrNull(Utf8JsonWriter json, string name, double? number, int digits)
    {
        if (number is { } value && double.IsFinite(value) && Math.Abs(value) < 1e15)
        {
            json.WriteRounded(name, value, digits);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
