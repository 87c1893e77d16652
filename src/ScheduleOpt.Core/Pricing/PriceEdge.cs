using NodaTime;

namespace ScheduleOpt.Core.Pricing;

/// <summary>A place where the price of one more kWh changes (a kink), or the bill itself (a jump), as far as it is from the expected use.</summary>
/// <param name="Kind">What changes there.</param>
/// <param name="Name">The charge's name.</param>
/// <param name="BillingPeriodStart">Start of the billing period.</param>
/// <param name="More">How much more use, or power, leads there; none where more never does. [kWh or kW]</param>
/// <param name="Less">How much less leads there; none where less never does. [kWh or kW]</param>
/// <param name="Unit">kWh or kW.</param>
/// <param name="IsJump">Whether the bill itself changes there.</param>
public sealed record PriceEdge(EdgeKind Kind, string Name, Instant BillingPeriodStart, decimal? More, decimal? Less, string Unit, bool IsJump);

/// <summary>What changes at an edge.</summary>
public enum EdgeKind
{
    /// <summary>One block ends and the next begins.</summary>
    Block,

    /// <summary>The minimum bill begins or ceases to bind. In kWh at the dearest price: the true distance is not shorter.</summary>
    MinimumBill,

    /// <summary>The highest average power is passed.</summary>
    NewPeak,

    /// <summary>Import and export balance: in an interval, or over a billing period under net metering.</summary>
    ZeroNetFlow,

    /// <summary>A percentage reaches its cap. In kWh at the dearest price.</summary>
    PercentageCap,

    /// <summary>A conditional amount begins or ends.</summary>
    ConditionalAmount,

    /// <summary>A banked credit no longer covers the bill, or begins to. In kWh at the dearest price.</summary>
    CreditBank,
}
