using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Tariffs;

/// <summary>What bounds a rate plan's bills from below while use is only added to the expected one.</summary>
/// <remarks>Whatever is added, all bills together cost no less than <see cref="Total"/>, plus the added use at the prices, plus what the terms say (each in its billing
/// period, no less than the lower hull of what it costs there): except for what is <see cref="Open"/>.</remarks>
/// <param name="Prices">Prices and terms; where a limit may cut a percentage, added use does not raise it.</param>
/// <param name="IsLower">Whether they differ from those that the plan is scheduled by.</param>
/// <param name="Total">The bills of the expected use alone, before rounding, less the most that rounding takes off and rebates may come to. [currency]</param>
/// <param name="Open">What of the plan has no lower bound, in words; empty where there is a bound.</param>
public sealed record LeastBill(PriceSchedule Prices, bool IsLower, decimal Total, IReadOnlyList<string> Open);
