using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>How a percentage came out in a billing period.</summary>
/// <param name="Tax">The percentage.</param>
/// <param name="Base">Its base. [currency]</param>
/// <param name="Share">The share of the days on which it holds.</param>
/// <param name="Plain">What the percentage alone would be. [currency]</param>
/// <param name="Cap">The lower of its limits at this use; none for no limit. [currency]</param>
/// <param name="Limb">Which limb was charged.</param>
internal sealed record PercentageOutcome(Tax Tax, decimal Base, decimal Share, decimal Plain, decimal? Cap, PercentageLimb Limb);

/// <summary>Which limb of a percentage is charged.</summary>
internal enum PercentageLimb
{
    Percent,
    PerKwh,
    Capped,
}
