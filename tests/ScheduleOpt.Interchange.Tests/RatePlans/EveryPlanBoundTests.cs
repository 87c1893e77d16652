using NodaTime;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.SecondBiller;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

/// <summary>The bound of every plan of <c>tariffs/</c> against the optimum of scipy's mixed-integer programme, billed by the second biller: neither has code of the bound's.</summary>
public sealed class EveryPlanBoundTests(ITestOutputHelper output)
{
    // Uses of December close to what the plans' limits are.
    private static readonly double[] DecemberKwh = [100, 340, 560, 640, 1130, 1350, 1700, 1950];

    // What the bound may be below the optimum: hulls where prices fall, rounding of lines and of kW. [currency of some 1,000 to 4,000 a year]
    private const decimal MostBelow = 12;

    public static TheoryData<string, int> Cases()
    {
        var cases = new TheoryData<string, int>();
        foreach (var (id, i) in RatePlanLibrary.Ids.Select((id, i) => (id, i)))
        {
            cases.Add(id, i);
            if (!id.StartsWith("example-power", StringComparison.Ordinal))
            {
                cases.Add(id, i + 3);
            }
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Bound_AnyPlan_IsNoMoreThanTheOptimumOfAnotherSolverBilledByAnotherBiller(string id, int seed)
    {
        var python = MixedPlanProgram.Interpreter;
        Assert.SkipWhen(python is null, "scipy is not installed here: no other solver to compare with.");
        var plan = PlanHouseholds.Of(RatePlanLibrary.Find(id)!, seed, out var frame, new LastWeeks(DecemberKwh[seed % DecemberKwh.Length], seed % 2 == 1));
        var year = new SetUpYear(frame, frame.Question.SetUps[0]).At(plan);

        var cell = YearComparison.Run(frame.Question).Cells.Single(c => c.RatePlan.Id == id);
        var (cost, kwh) = MixedPlanProgram.Solve(python!, year, plan.Plan.For(plan.Input.Choices), plan.Prices, plan.Beside);

        Assert.Equal(0, cell.Energy.TripShortfallKwh, 0.01);
        var house = plan.HousePlan is null ? 0 : plan.BillWithoutCar.Total;
        var idle = house + Bill(plan, plan.Beside);
        var optimum = house + Bill(plan, plan.Beside.Plus(MeteredSeries.FromKilowattHours(plan.Beside.Start, plan.Beside.Interval, kwh)));
        output.WriteLine(FormattableString.Invariant(
            $"bound {cell.BoundCost:0.00}, known ahead {cell.WholeHouseCost:0.00}; idle {idle:0.00}, optimum billed {optimum:0.00}, by its programme {idle + (decimal)cost:0.00}"));
        Assert.True(cell.BoundCost <= optimum + 0.000001m, $"{cell.BoundCost} above {optimum}");
        Assert.True(optimum - cell.BoundCost <= MostBelow, $"{cell.BoundCost} far below {optimum}");

        // The programme is the plan: what it leaves out is limits of percentages, rounding of lines, rebates and ratchets.
        Assert.Equal((double)(optimum - idle), cost, 2.5);
    }

    private static decimal Bill(PlanYear plan, MeteredSeries series)
    {
        using var stream = typeof(RatePlanLibrary).Assembly.GetManifestResourceStream($"tariffs/{plan.Plan.Id}.yaml")!;
        using var reader = new StreamReader(stream);
        return NaiveBiller.Bill(PlanText.Read(reader.ReadToEnd()), new Question
        {
            Start = series.Start,
            Interval = series.Interval,
            Import = [.. series.MicroKilowattHours],
            Prices = plan.Input.Prices.ToDictionary(p => p.Key, p => new HourlyPrices(p.Value.Start, p.Value.Interval, [.. p.Value.PerKwh])),
        }).Total;
    }
}
