using NodaTime;
using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Year;

/// <summary>One rate plan's year: what the house alone costs, and the price of one more kWh.</summary>
/// <param name="Plan">The rate plan.</param>
/// <param name="Input">What is given beside it.</param>
/// <param name="Prices">Prices and terms beside the use that is on the same meter without the car.</param>
/// <param name="BillWithoutCar">The house alone: on this plan, or where this one is for the car's own meter on the house's.</param>
/// <param name="HousePlan">The plan on which the house stays where this one is for the car's own meter; none for the whole house.</param>
internal sealed record PlanYear(RatePlan Plan, BillInput Input, PriceSchedule Prices, Bill BillWithoutCar, RatePlan? HousePlan)
{
    private Lazy<double[]>? means;
    private Lazy<CoupledCharges>? coupled;
    private Lazy<double[]?>? hourly;
    private Lazy<decimal>? idle;

    /// <summary>What is on the car's meter without the car.</summary>
    public required MeteredSeries Beside { get; init; }

    /// <summary>What the prices leave out; worked out when first asked for.</summary>
    public CoupledCharges Coupled => coupled!.Value;

    /// <summary>What bounds its bills from below.</summary>
    public required LeastPlan Least { get; init; }

    /// <summary>The price at the start of each hour, where prices are published by the hour; none where the plan says them all. [currency/kWh]</summary>
    public double[]? Hourly => hourly!.Value;

    /// <summary>A plan for the whole house.</summary>
    public static PlanYear Of(YearFrame frame, RatePlan plan)
    {
        var input = InputOf(frame, plan);
        return Make(frame, plan, input, frame.House, Biller.Bill(plan, frame.House, input: input), null);
    }

    /// <summary>A plan for the car's own meter, beside the plan on which the house stays.</summary>
    public static PlanYear OfCarMeter(YearFrame frame, RatePlan plan, PlanYear house) =>
        Make(frame, plan, InputOf(frame, plan), frame.Nothing, house.BillWithoutCar, house.Plan);

    /// <summary>What is billed where the car takes nothing at home: a meter of its own has its charges all the same. [currency]</summary>
    public decimal IdleTotal => idle!.Value;

    /// <summary>The bill of house and car.</summary>
    public Bill BillWith(MeteredSeries car)
    {
        var metered = Biller.Bill(Plan, HousePlan is null ? Beside.Plus(car) : car, input: Input);
        return HousePlan is null ? metered : TwoMeters.Bill(BillWithoutCar, metered);
    }

    /// <summary>Prices on the intervals of a year, those at stops kept; none where one of them lies in two of the meter's.</summary>
    public double[]? PricesOn(ChargingProblem problem) => SpanPrices.On(problem, means!.Value, Beside);

    private static BillInput InputOf(YearFrame frame, RatePlan plan) => frame.Question.RatePlanInputs.GetValueOrDefault(plan.Id, BillInput.None);

    private static PlanYear Make(YearFrame frame, RatePlan plan, BillInput input, MeteredSeries beside, Bill withoutCar, RatePlan? housePlan)
    {
        var least = LeastPlan.Of(frame, plan, input, beside, housePlan is null ? 0 : withoutCar.Total);
        var prices = least.Bill.IsLower ? PriceScheduleBuilder.Build(plan, frame.Span.Start, frame.Span.End, beside, input: input) : least.Bill.Prices;
        return new PlanYear(plan, input, prices, withoutCar, housePlan)
        {
            Beside = beside,
            Least = least,
            means = new Lazy<double[]>(() => SpanPrices.Means(prices, beside)),
            coupled = new Lazy<CoupledCharges>(() => least.Bill.IsLower ? CoupledCharges.Of(prices, beside, plan.Zone) : least.Charges),
            idle = new Lazy<decimal>(() => withoutCar.Total + (housePlan is null ? 0 : Biller.Bill(plan, beside, input: input).Total)),
            hourly = new Lazy<double[]?>(() => plan.PriceSeriesNames.Count == 0 ? null : HourlyOf(prices)),
        };
    }

    private static double[] HourlyOf(PriceSchedule prices)
    {
        var values = new double[(int)Math.Ceiling((prices.End - prices.Start).TotalHours)];
        var at = 0;
        for (var h = 0; h < values.Length; h++)
        {
            while (at + 1 < prices.Spans.Count && prices.Spans[at + 1].Start <= prices.Start + Duration.FromHours(h))
            {
                at++;
            }

            values[h] = (double)prices.Spans[at].ImportPerKwh;
        }

        return values;
    }
}
