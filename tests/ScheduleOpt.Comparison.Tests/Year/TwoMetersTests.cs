using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Tests.Year;

/// <summary>A plan for the car's own meter stands beside whole-house plans.</summary>
public sealed class TwoMetersTests
{
    [Fact]
    public void Run_FlatPlans_IsTheHousesBillAndTheCarsByHand()
    {
        // House: 0.1 kW of use all year, 876 kWh at 0.20 and 12 x 10.00. Car on its own meter at 0.05 and 12 x 10.00.
        var cell = YearComparison.Run(Case(SampleYear.Flat(0.20m), Separate(0.05m)) with
        {
            HouseLoad = HouseLoad.Hourly(Enumerable.Repeat(0.1, WeatherYear.Hours)),
        }).Cells.Single(c => c.RatePlan.Id == "separate");

        Assert.Equal("flat", cell.HousePlan!.Id);
        Assert.Equal((0.20 * 876) + 120, (double)cell.BillWithoutCar.Total, 1e-6);
        Assert.Equal((0.05 * cell.Energy.HomeWallKwh) + 120, (double)cell.CarShare, 0.002);
        Assert.Equal(240, cell.BillWithCar.TotalOf(BillPart.CustomerCharge));
        Assert.Equal(12, cell.BillWithCar.Periods.Count);
        Assert.Equal(cell.BillWithCar.Total, cell.BillWithCar.TotalsByPart().Values.Sum());
        Assert.Equal(cell.BillWithCar.Total, cell.BillWithCar.Periods.Sum(p => p.Lines.Sum(l => l.Amount)));
    }

    [Fact]
    public void Run_EveryBehaviour_BillsAsTheBillerOfHouseholdsDoes()
    {
        var question = Case(SampleYear.TimeOfUse(), Separate(0.05m)) with { Behaviours = SampleYear.AllBehaviours };
        var frame = new YearFrame(question);
        var plan = question.RatePlans[1];
        foreach (var cell in YearComparison.Run(question).Cells.Where(c => c.RatePlan.Id == "separate"))
        {
            var year = new SetUpYear(frame, cell.SetUp);
            var run = cell.Behaviour is UnaidedBehaviour unaided
                ? YearRun.Of(frame, year.Unpriced, unaided)
                : KnownAheadYear.Run(frame, year, PlanYear.OfCarMeter(frame, plan, PlanYear.Of(frame, question.RatePlans[0])));

            Assert.Equal(Biller.Household(plan, question.RatePlans[0], frame.House, run.Car).Total, cell.BillWithCar.Total);
        }
    }

    [Fact]
    public void Run_HousePlan_IsTheOneNamedThenTodaysThenTheCheapestForTheHouse()
    {
        RatePlan[] plans = [SampleYear.Flat(0.20m, "dear"), SampleYear.Flat(0.10m, "cheap"), SampleYear.Flat(0.30m, "dearest"), Separate(0.05m)];
        Assert.Equal("cheap", HouseOf(Case(plans)));
        Assert.Equal("dear", HouseOf(Case(plans) with { HousePlan = "dear" }));
        plans[3] = plans[3] with { HousePlan = "dearest" };
        Assert.Equal("dearest", HouseOf(Case(plans) with { HousePlan = "dear" }));

        static string HouseOf(YearCase question) => YearComparison.Run(question).Cells.Single(c => c.RatePlan.Id == "separate").HousePlan!.Id;
    }

    [Fact]
    public void Run_PublicChargingAlone_HasNoMeterForTheCar()
    {
        var result = YearComparison.Run(Case(SampleYear.Flat(), Separate(0.05m)) with { SetUps = [SetUp.PublicChargingOnly("public")] });

        Assert.Equal("flat", Assert.Single(result.Cells).RatePlan.Id);
        Assert.Contains(result.Warnings, w => w.Contains("separate", StringComparison.Ordinal) && w.Contains("flat", StringComparison.Ordinal));
    }

    [Fact]
    public void Contradictions_AHousePlanThatIsNotThere_IsNamed() =>
        Assert.Single(YearCaseCheck.Contradictions(Case(SampleYear.Flat(), Separate(0.05m)) with { HousePlan = "separate" }));

    private static RatePlan Separate(decimal price) => SampleYear.Flat(price, "separate") with { Metering = Metering.SeparateMeter };

    private static YearCase Case(params RatePlan[] plans) => SampleYear.Case(plans) with
    {
        SetUps = [new SetUp("receptacle", Sample.Receptacle)], Behaviours = [new OnArrival()],
    };
}
