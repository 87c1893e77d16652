namespace ScheduleOpt.Tariffs.Charges;

/// <summary>An amount taken off.</summary>
/// <param name="Name">What the bill calls it.</param>
/// <param name="Amount">What is taken off, zero or more. [currency per unit]</param>
/// <param name="Per">kWh that it covers, or month, day, year or billing period.</param>
public sealed record Credit(string Name, decimal Amount, ChargeUnit Per) : Scope
{
    /// <summary>The use of a billing period with which it holds; none where use doesn't matter.</summary>
    public UseBand? UseBand { get; init; }
}
