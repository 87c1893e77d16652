using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One rate plan's year: what the house alone costs, and the price of one more kWh.</summary>
internal sealed record PlanYear(RatePlan Plan, BillInput Input, PriceSchedule Prices, Bill BillWithoutCar)
{
    public static PlanYear Of(YearFrame frame, RatePlan plan)
    {
        var input = frame.Question.RatePlanInputs.GetValueOrDefault(plan.Id, BillInput.None);
        return new(
            plan,
            input,
            PriceScheduleBuilder.Build(plan, frame.Span.Start, frame.Span.End, frame.House, input: input),
            Biller.Bill(plan, frame.House, input: input));
    }
}
