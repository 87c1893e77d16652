using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Tests.Year;
using ScheduleOpt.Comparison.Waterfalls;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Tests.Waterfalls;

public sealed class WaterfallTests
{
    [Fact]
    public void Of_OutletAgainstReceptacle_IsLossesAndInstall()
    {
        // 230.349 kWh more are lost on 120 V: 23.0349 at 0.10; the receptacle costs 170 a year to install. 23.03 - 170.00 = -146.97.
        var cells = YearComparison.Run(SampleYear.HandWorked with
        {
            SetUps = [new SetUp("receptacle", Sample.Receptacle), new SetUp("outlet", Sample.Outlet), SetUp.PublicChargingOnly("public")],
            Behaviours = [new OnArrival()],
        }).Cells;

        var waterfall = Waterfall.Of(new WaterfallSide(cells[0], 170), new WaterfallSide(cells[1], 0));

        Assert.Equal(-146.97m, waterfall.Difference);
        Assert.Equal(
            [(WaterfallPart.Losses, 23.03m), (WaterfallPart.Install, -170.00m)],
            waterfall.Steps.Where(s => s.Amount != 0).Select(s => (s.Part, s.Amount)));

        // Against public charging alone: 130 of car energy and 14.22744 of losses less, 678.26 away.
        var toPublic = Waterfall.Of(new WaterfallSide(cells[0], 0), new WaterfallSide(cells[2], 0));
        Assert.Equal(
            [(WaterfallPart.CarEnergy, -130.00m), (WaterfallPart.Losses, -14.23m), (WaterfallPart.AwayCharging, 678.26m)],
            toPublic.Steps.Where(s => s.Amount != 0).Select(s => (s.Part, s.Amount)));
    }

    [Fact]
    public void Of_AnyTwoCells_AddsUpToTheCentAndTurnsRound()
    {
        var cells = YearComparison.Run(SampleYear.Case(SampleYear.Flat(0.1037m), SampleYear.TimeOfUse(), SampleYear.Blocks()) with
        {
            SetUps = [new SetUp("outlet", Sample.Outlet), new SetUp("hardwired", Sample.Hardwired), SetUp.PublicChargingOnly("public")],
            Behaviours = [new OnArrival(), new LeastCostKnownAhead()],
        }).Cells;
        Assert.True(cells.Count > 10);

        for (var i = 0; i < cells.Count; i++)
        {
            for (var j = 0; j < cells.Count; j++)
            {
                var (first, second) = (new WaterfallSide(cells[i], 11.111m * i), new WaterfallSide(cells[j], 11.111m * j));
                var waterfall = Waterfall.Of(first, second);

                Assert.Equal(Enum.GetValues<WaterfallPart>(), waterfall.Steps.Select(s => s.Part));
                Assert.Equal(waterfall.Difference, waterfall.Steps.Sum(s => s.Amount));
                Assert.Equal((double)(second.Cost - first.Cost), (double)waterfall.Difference, 0.005001);
                Assert.All(waterfall.Steps, s => Assert.Equal(s.Amount, Math.Round(s.Amount, 2)));
                Assert.Equal(waterfall.Steps.Select(s => -s.Amount), Waterfall.Of(second, first).Steps.Select(s => s.Amount));
            }
        }
    }
}
