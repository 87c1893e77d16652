using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Tests.Year;

public sealed class YearOutcomeTests
{
    private static readonly YearResult Result =
        YearComparison.Run(SampleYear.Case(SampleYear.Flat(), SampleYear.TimeOfUse(), SampleYear.Blocks()));

    [Fact]
    public void Run_OutletInDeepCold_IsLessReadyThanLargerSupplies()
    {
        foreach (var behaviour in SampleYear.AllBehaviours)
        {
            var outlet = Cell("outlet", "flat", behaviour);
            var receptacle = Cell("receptacle", "flat", behaviour);

            Assert.True(outlet.ColdestWeek.Share < receptacle.ColdestWeek.Share, behaviour.Name);
            Assert.True(outlet.Readiness.Share < receptacle.Readiness.Share, behaviour.Name);
            Assert.True(outlet.ColdestWeek.TripShortfallKwh > 0);
            Assert.True(outlet.Away.PublicCost > 0);
        }
    }

    [Fact]
    public void Run_OutletAtMinus17AllYear_DeliversNothing()
    {
        // 0.93 * 1.44 - 0.22 - 0.05 * (6 + 17) = -0.03 kW. A little warmer, at -16 degC, 0.019 kW: physics check 35 puts zero at -16.38.
        foreach (var (celsius, delivers) in new[] { (-17.0, false), (-16.0, true) })
        {
            var result = YearComparison.Run(SampleYear.Case(SampleYear.Flat()) with
            {
                SetUps = [new SetUp("outlet", Sample.Outlet)], Weather = SampleYear.Constant(celsius),
            });

            Assert.All(result.Cells, c => Assert.Equal(delivers, c.Energy.HomeWallKwh > 0));
        }
    }

    [Fact]
    public void Run_OnArrivalByDepartureAndLeastCost_EndTheYearAsTheyBeganIt()
    {
        foreach (var cell in Result.Cells.Where(c => c.SetUp.Name != "outlet" && c.Behaviour is not FixedStart))
        {
            Assert.False(cell.EndCorrection.Applies, $"{cell.Behaviour!.Name}: {cell.EndCorrection.MissingKwh} kWh");
            Assert.Equal(0, cell.EndCorrection.Cost);
        }
    }

    [Fact]
    public void Run_FixedStartOnTheLastEvening_IsCorrectedAtTheCellsMeanPrice()
    {
        // 31 December 2026 is a Thursday: home at 17:30, start at 23:00, one hour to midnight is too short for the outlet.
        var cell = Cell("outlet", "flat", SampleYear.AllBehaviours[1]);

        Assert.True(cell.EndCorrection.Applies);
        Assert.Contains(cell.Warnings, w => w.StartsWith("The year ends", StringComparison.Ordinal));
        var price = cell.CarShare / (decimal)cell.Energy.HomeStoredKwh;
        Assert.Equal(Math.Round((decimal)cell.EndCorrection.MissingKwh * price, 2), cell.EndCorrection.Cost, 2);
        Assert.Equal(cell.BillWithCar.Total + cell.Away.Cost + cell.EndCorrection.Cost, cell.WholeHouseCost);
    }

    [Fact]
    public void Run_ColdestWeek_IsTheInventedWeekByMidnights()
    {
        Assert.Equal(new LocalDate(2026, 1, 12), Result.ColdestWeek.First);
        Assert.Equal(-19, Result.ColdestWeek.MeanC, 1e-9);
        Assert.Equal("coldest week of a typical year", Result.ColdestWeek.Wording);

        // Five workdays and a Saturday; 18 January is day 18 of the year, no long trip.
        Assert.Equal(6, Result.Cells[0].ColdestWeek.Departures);
    }

    [Fact]
    public void Run_MeasuredYear_SaysSo()
    {
        var measured = new WeatherYear(SampleYear.Cold.Celsius, "invented", isTypical: false);

        var result = YearComparison.Run(SampleYear.Case(SampleYear.Flat()) with
        {
            Weather = measured, SetUps = [SetUp.PublicChargingOnly("public")],
        });

        Assert.Equal("coldest week of the measured year", result.ColdestWeek.Wording);
    }

    [Fact]
    public void Run_Cells_ComeBySetUpThenRatePlanThenBehaviour()
    {
        Assert.Equal(
            from setUp in new[] { "outlet", "receptacle", "hardwired" }
            from plan in new[] { "flat", "tou", "blocks" }
            from behaviour in SampleYear.AllBehaviours
            select (setUp, plan, behaviour.Name),
            Result.Cells.Select(c => (c.SetUp.Name, c.RatePlan.Id, c.Behaviour!.Name)));
    }

    [Fact]
    public void Run_PlanWithBlocks_LeastCostSaysWhichPriceItTook()
    {
        var cell = Cell("receptacle", "blocks", new LeastCostKnownAhead());

        Assert.Contains(cell.Warnings, w => w.Contains("block", StringComparison.Ordinal));
        Assert.DoesNotContain(Cell("receptacle", "blocks", new OnArrival()).Warnings, w => w.Contains("block", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_TripsAtBothEdgesOfTheYear_AreInsideIt()
    {
        // Away from the first instant and back at the last: 2 * 10 kWh at 20 degC; the car is home for the whole time between.
        var (first, last) = (new LocalDateTime(2026, 1, 1, 0, 0), new LocalDateTime(2027, 1, 1, 0, 0));
        var question = SampleYear.Case(SampleYear.Flat()) with
        {
            SetUps = [new SetUp("receptacle", Sample.Receptacle)],
            Weather = SampleYear.Constant(20),
            Calendar = new DrivingCalendar([
                SampleYear.Trip(Sample.Chicago, first, first.PlusHours(6), 40),
                SampleYear.Trip(Sample.Chicago, last.PlusHours(-6), last, 40),
            ]),
        };

        foreach (var cell in YearComparison.Run(question).Cells)
        {
            Assert.Equal((2, 2), (cell.Readiness.Departures, cell.Readiness.Ready));
            Assert.Equal(20, cell.Energy.DriveKwh, 1e-9);

            // Nobody can charge after the last return. Least cost knew, and filled up before departure so as to end as it began.
            Assert.Equal(cell.Behaviour is LeastCostKnownAhead ? 0 : 10, cell.EndCorrection.MissingKwh, 1e-6);
        }
    }

    [Fact]
    public void Run_Ranks_FollowWholeHouseCost()
    {
        var ranked = Result.Ranked.ToArray();

        Assert.Equal(1, ranked[0].Rank);
        Assert.Equal(ranked.Select(c => c.WholeHouseCost).Order(), ranked.Select(c => c.WholeHouseCost));
        Assert.IsType<LeastCostKnownAhead>(ranked[0].Behaviour);
    }

    [Fact]
    public void Run_TripOverNewYear_IsLeftOutWithAWarning()
    {
        var over = SampleYear.Trip(Sample.Chicago, new LocalDateTime(2025, 12, 31, 20, 0), new LocalDateTime(2026, 1, 1, 2, 0), 30);
        var question = SampleYear.Case(SampleYear.Flat()) with
        {
            Calendar = new DrivingCalendar(SampleYear.Commuting(2026, Sample.Chicago).Trips.Append(over)),
            SetUps = [new SetUp("receptacle", Sample.Receptacle)],
        };

        var result = YearComparison.Run(question);

        Assert.Contains(result.Warnings, w => w.Contains("only partly in 2026: 1", StringComparison.Ordinal));
        Assert.Equal(Cell("receptacle", "flat", new OnArrival()).Energy.DriveKwh, result.Cells[0].Energy.DriveKwh, 1e-9);
    }

    [Fact]
    public void Run_WithoutHouseLoad_Warns()
    {
        var question = SampleYear.Case(SampleYear.Flat()) with { HouseLoad = null, SetUps = [SetUp.PublicChargingOnly("public")] };

        Assert.Contains(YearComparison.Run(question).Warnings, w => w.StartsWith("No house load", StringComparison.Ordinal));
    }

    [Fact]
    public void Contradictions_OfABadCase_AreNamedAll()
    {
        var bad = SampleYear.Case(SampleYear.Flat(), SampleYear.Flat() with { Currency = "CAD" }) with
        {
            SetUps = [], Behaviours = [], AwayPricePerKwh = -1, GridMinutes = 7,
        };

        Assert.Equal(6, YearCaseCheck.Contradictions(bad).Count);
        Assert.Throws<ArgumentException>(() => YearComparison.Run(bad));
        Assert.Empty(YearCaseCheck.Contradictions(SampleYear.Case(SampleYear.Flat())));
    }

    [Fact]
    public void Run_Progress_CountsEveryPartOnce()
    {
        var parts = new Parts();

        YearComparison.Run(SampleYear.Case(SampleYear.Flat()) with { SetUps = [SetUp.PublicChargingOnly("public")] }, parts);

        Assert.Equal([1, 2], parts.Done.Order());
        Assert.All(parts.Totals, t => Assert.Equal(2, t));
    }

    private static YearCell Cell(string setUp, string plan, Behaviour behaviour) =>
        Result.Cells.Single(c => c.SetUp.Name == setUp && c.RatePlan.Id == plan && c.Behaviour == behaviour);

    private sealed class Parts : IProgress<YearProgress>
    {
        public List<int> Done { get; } = [];

        public List<int> Totals { get; } = [];

        public void Report(YearProgress value)
        {
            lock (Done)
            {
                Done.Add(value.Done);
                Totals.Add(value.Total);
            }
        }
    }
}
