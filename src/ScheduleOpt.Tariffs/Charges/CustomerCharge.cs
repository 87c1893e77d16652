namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A fixed charge that does not depend on use.</summary>
/// <param name="Name">What the bill calls it.</param>
/// <param name="Amount">Amount per month or per day; may be negative (a fixed credit). [currency]</param>
/// <param name="Per">Per month (scaled by the plan's proration) or per day of the billing period.</param>
public sealed record CustomerCharge(string Name, decimal Amount, ChargeUnit Per);

/// <summary>What a fixed amount or a block limit is counted by.</summary>
public enum ChargeUnit
{
    /// <summary>By month: scaled by the plan's proration rule.</summary>
    Month,

    /// <summary>By day of the billing period. Never turned into months.</summary>
    Day,
}
