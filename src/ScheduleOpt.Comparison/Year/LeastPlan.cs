using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>What bounds a rate plan's bills of a year from below.</summary>
/// <param name="Bill">The bills at least, with their prices.</param>
/// <param name="Total">What is billed at least where the car takes nothing, the house's own meter included. [currency]</param>
internal sealed record LeastPlan(LeastBill Bill, decimal Total)
{
    private Lazy<CoupledCharges>? charges;

    /// <summary>What the prices leave out; worked out when first asked for.</summary>
    public CoupledCharges Charges => charges!.Value;

    /// <summary>Whether there is a bound.</summary>
    public bool HasBound => Bill.Open.Count == 0;

    /// <summary>Works it out.</summary>
    /// <param name="frame">The case.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="input">What is given beside it.</param>
    /// <param name="beside">What is on its meter without the car.</param>
    /// <param name="house">What the house's own meter is billed; zero where it has none. [currency]</param>
    public static LeastPlan Of(YearFrame frame, RatePlan plan, BillInput input, MeteredSeries beside, decimal house)
    {
        var bill = PriceScheduleBuilder.Least(plan, beside, frame.MostKw, input);
        return new LeastPlan(bill, house + bill.Total) { charges = new Lazy<CoupledCharges>(() => CoupledCharges.Of(bill.Prices, beside, plan.Zone)) };
    }

    /// <summary>The year at least prices, as bills have them; none where there is no bound.</summary>
    public ChargingProblem? Priced(ChargingProblem year) =>
        HasBound && SpanPrices.On(year, SpanPrices.Means(Bill.Prices, Charges.Beside), Charges.Beside) is { } prices ? year with { Price = prices } : null;
}
