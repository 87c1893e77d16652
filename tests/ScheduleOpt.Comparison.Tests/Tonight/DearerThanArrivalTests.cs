using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Comparison.Tests.Tonight;

/// <summary>Where a schedule costs more than charging on arrival its answer says why, from what both do.</summary>
public partial class DearerThanArrivalTests
{
    // 58 of 60 kWh are asked for at hour 20; the ordinary limit is 48. On arrival the car has 58 after (58 - 30) / 6.9224 = 4.04 h, at 0.05; the schedule may store the last 10 only just before
    // the departure, at 0.50.
    [Fact]
    public void Arrival_ThatDwellsAboveTheOrdinaryLimit_IsSaidToDoSo()
    {
        var plan = Plan(0.5, 60, [(0, 0.05m), (8, 0.50m)], Sample.Trip(20, 4, 20, target: 58.0 / 60));
        Assert.True(plan.Cost > plan.CostOnArrival + 3, $"{plan.Cost} {plan.CostOnArrival}");
        Assert.Matches(
            @"^The schedule costs \d+\.\d{3} USD more than charging on arrival, which stores up to 10 kWh more than the ordinary limit, and what longer trips need above it, allow at the time\.$",
            plan.DearerThanArrival);
        Assert.Equal(plan.Cost - plan.CostOnArrival, Figure(plan.DearerThanArrival!, "costs "), 1e-3);
    }

    // On arrival the car leaves with the ordinary 48 kWh, drives 3, charges half an hour, 3.46, and lacks 50 + 6 - 48.46 = 7.54 of a trip of 50 kWh. The schedule stores more before the first trip.
    [Fact]
    public void Arrival_ThatLeavesMoreToChargeOnTheWay_IsSaidToDoSo()
    {
        var plan = Plan(0.7, 25, [(0, 0.20m)], Sample.Trip(10, 2, 12), Sample.Trip(12.5, 12, 200));
        Assert.Equal(7.54, plan.ExtraAwayKwhOnArrival, 0.05);
        Assert.StartsWith("The schedule costs", plan.DearerThanArrival, StringComparison.Ordinal);
        Assert.Equal(plan.ExtraAwayKwhOnArrival, Figure(plan.DearerThanArrival!, "leaves "), 0.01);
        Assert.Contains(" kWh more to be charged on the way, at a price that is not in its cost", plan.DearerThanArrival, StringComparison.Ordinal);
    }

    // 18 kWh to the ordinary limit take 2.6 h on arrival, at 0.10; a window of 4 h or more does not fit below it, so that the one allowed ends with the stay, at 0.30.
    [Fact]
    public void Arrival_WhoseWindowIsTooShort_IsSaidToBreakTheRules()
    {
        var plan = WithLeastOn(Duration.FromHours(4));
        Assert.True(plan.Cost > plan.CostOnArrival + 2, $"{plan.Cost} {plan.CostOnArrival}");
        Assert.Contains("switches a car on and off otherwise than its running rules allow", plan.DearerThanArrival, StringComparison.Ordinal);
        Assert.DoesNotContain("known to be within 0.000", plan.DearerThanArrival, StringComparison.Ordinal);
    }

    [Fact]
    public void Arrival_WhoseWindowIsLongEnough_BreaksNoRule() => Assert.Null(WithLeastOn(Duration.FromHours(2)).DearerThanArrival);

    // The same runs at two costs: nothing that either does is behind it, and no gap.
    [Fact]
    public void Difference_ThatNoGapExplains_IsNotPutDownToOne()
    {
        var plan = Plan(0.5, 25, [(0, 0.10m)], Sample.Trip(20, 4, 20));
        var runs = ArrivalRuns.Of(plan.Problem);
        string? Said(double gap) => DearerThanArrival.Sentence(plan.Problem, runs, runs, (new(3, 0, 0), new(2.643, 0, 0)), gap, "USD");
        Assert.Equal("The schedule costs 0.357 USD more than charging on arrival; nothing was found that charging on arrival does less well.", Said(0));
        Assert.Equal(Said(0), Said(0.34));
        Assert.Equal("The schedule costs 0.357 USD more than charging on arrival: the schedule is known to be within 0.360 USD of the least that can be reached.", Said(0.36));
    }

    [Fact]
    public void Schedule_ThatCostsNoMore_HasNothingToSay() =>
        Assert.Null(Plan(0.5, 60, [(0, 0.30m), (8, 0.10m)], Sample.Trip(20, 4, 20)).DearerThanArrival);

    [Fact]
    public void Schedule_OfAnyCase_SaysWhyWhereverItCostsMore()
    {
        var (said, byGap) = (0, 0);
        var faults = new List<string>();
        foreach (var (seed, question) in Cases())
        {
            var plan = NightPlanner.Plan(question);
            var more = plan.Cost - plan.CostOnArrival;
            if (more > 0.005 != plan.DearerThanArrival is not null)
            {
                faults.Add($"{seed}: {more}, {plan.DearerThanArrival}");
            }

            said += plan.DearerThanArrival is null ? 0 : 1;
            if (plan.DearerThanArrival?.Contains("nothing was found", StringComparison.Ordinal) == true)
            {
                faults.Add($"{seed}: {more}, gap {plan.Gap}: {plan.DearerThanArrival}");
            }

            if (plan.DearerThanArrival is { } why && !why.Contains(", which ", StringComparison.Ordinal))
            {
                // A schedule without any of the differences can cost more by the gap alone, whole seconds aside.
                byGap++;
                if (more > plan.Gap + 0.01)
                {
                    faults.Add($"{seed}: {more}, gap {plan.Gap}: {why}");
                }
            }
        }

        Assert.True(faults.Count == 0, string.Join(Environment.NewLine, faults));
        Assert.True(said > 20 && byGap < said / 4, $"{said} said, {byGap} by the gap");
    }

    private static IEnumerable<(string Seed, NightQuestion Question)> Cases()
    {
        for (var seed = 0; seed < 300; seed++)
        {
            yield return ($"car {seed}", new NightQuestion(RandomCases.Case(seed, negativePrices: seed % 3 == 0), (ShortfallOrder)(seed % 2)));
        }

        for (var seed = 0; seed < 60; seed++)
        {
            yield return ($"household {seed}", CoupledNights.Of(seed));
        }
    }

    private static double Figure(string sentence, string after) =>
        double.Parse(Number().Match(sentence, sentence.IndexOf(after, StringComparison.Ordinal)).Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\d+(\.\d+)?")]
    private static partial Regex Number();

    private static NightPlan WithLeastOn(Duration leastOn) => NightPlanner.Plan(new NightQuestion(new HouseholdCase
    {
        Cars = [new CarCase("car", Question(0.5, 25, [(0, 0.10m), (8, 0.30m)], Sample.Trip(20, 4, 20)), new RunningRules { LeastOn = leastOn })],
    }));

    private static NightPlan Plan(double stateOfCharge, int hours, (int Hour, decimal Price)[] prices, params Core.Driving.Trip[] trips) =>
        NightPlanner.Plan(new NightQuestion(Question(stateOfCharge, hours, prices, trips)));

    private static ChargingCase Question(double stateOfCharge, int hours, (int Hour, decimal Price)[] prices, params Core.Driving.Trip[] trips) =>
        Sample.Question(Sample.Receptacle, 20, stateOfCharge, Duration.FromHours(hours), trips) with
        {
            Prices = new PriceSchedule(
                [.. prices.Select(p => new PriceSpan(Sample.Monday + Duration.FromHours(p.Hour), p.Price, "price"))], Sample.Monday + Duration.FromHours(hours), "USD"),
        };
}
