using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One rate plan's year: what the house alone costs, and the price of one more kWh.</summary>
internal sealed record PlanYear(RatePlan Plan, PriceSchedule Prices, Bill BillWithoutCar)
{
    public static PlanYear Of(YearFrame frame, RatePlan plan) => new(
        plan,
        PriceScheduleBuilder.Build(plan, frame.Span.Start, frame.Span.End, frame.House),
        Biller.Bill(plan, frame.House));
}
