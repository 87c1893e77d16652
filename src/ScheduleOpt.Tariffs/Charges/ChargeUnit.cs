namespace ScheduleOpt.Tariffs.Charges;

/// <summary>What an amount or a limit is counted by.</summary>
public enum ChargeUnit
{
    /// <summary>By month: scaled by the plan's proration rule.</summary>
    Month,

    /// <summary>By day of the billing period. Never turned into months.</summary>
    Day,

    /// <summary>By year: a twelfth of it by month.</summary>
    Year,

    /// <summary>By billing period, however long it is.</summary>
    BillingPeriod,

    /// <summary>By 30 days, whatever the plan's proration rule (limits only).</summary>
    ThirtyDays,

    /// <summary>By kWh (credits only).</summary>
    KilowattHour,
}
