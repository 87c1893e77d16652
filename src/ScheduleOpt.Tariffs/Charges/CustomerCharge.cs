namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A fixed charge.</summary>
/// <param name="Name">What the bill calls it.</param>
/// <param name="Amount">Amount per unit; may be negative (a fixed credit). [currency]</param>
/// <param name="Per">Month, day, year or billing period.</param>
public sealed record CustomerCharge(string Name, decimal Amount, ChargeUnit Per) : Scope
{
    /// <summary>Whether it is for each kW of the service.</summary>
    public bool PerServiceKw { get; init; }

    /// <summary>The use of a billing period with which it holds; none where use doesn't matter.</summary>
    public UseBand? UseBand { get; init; }
}

/// <summary>A band of the use of a billing period; its limits are not scaled.</summary>
/// <param name="OverKwh">Lower limit, excluded; none for no limit. [kWh]</param>
/// <param name="UpToKwh">Upper limit, included; none for no limit. [kWh]</param>
public sealed record UseBand(decimal? OverKwh, decimal? UpToKwh)
{
    internal bool Holds(decimal kwh) => (OverKwh is null || kwh > OverKwh) && (UpToKwh is null || kwh <= UpToKwh);
}
