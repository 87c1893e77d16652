namespace ScheduleOpt.Tariffs.Charges;

/// <summary>How many months a billing period counts for: the factor on monthly charges, minimum bills and block limits.</summary>
/// <param name="Rule">How days become months.</param>
/// <param name="WholeMonthFrom">A billing period of this many days or more, and at most <paramref name="WholeMonthTo"/>, counts as one month
/// exactly; none where the rule always holds. [days]</param>
/// <param name="WholeMonthTo">See <paramref name="WholeMonthFrom"/>. [days]</param>
public sealed record Proration(ProrationRule Rule, int? WholeMonthFrom = null, int? WholeMonthTo = null)
{
    /// <summary>Months that a billing period counts for.</summary>
    /// <param name="days">Its days; a part of a day as a fraction. [days]</param>
    /// <param name="calendarMonths">Its days, each divided by the length of its own month. [months]</param>
    internal decimal Months(decimal days, decimal calendarMonths) =>
        WholeMonthFrom is { } from && days >= from && days <= (WholeMonthTo ?? from)
            ? 1
            : Rule switch
            {
                ProrationRule.ThirtyDays => days / 30,
                ProrationRule.AverageMonth => days * 12 / 365,
                ProrationRule.DaysInMonth => calendarMonths,
                ProrationRule.WholeMonths => Math.Max(1, decimal.Round(days * 12 / 365, MidpointRounding.AwayFromZero)),
                _ => 1,
            };
}

/// <summary>How days become months.</summary>
public enum ProrationRule
{
    /// <summary>Every billing period counts as one month, however short.</summary>
    None,

    /// <summary>A month is 30 days.</summary>
    ThirtyDays,

    /// <summary>A month is 365/12 days.</summary>
    AverageMonth,

    /// <summary>Each day is one share of its own month.</summary>
    DaysInMonth,

    /// <summary>Days over 365/12, to the nearest whole month, at least one.</summary>
    WholeMonths,
}
