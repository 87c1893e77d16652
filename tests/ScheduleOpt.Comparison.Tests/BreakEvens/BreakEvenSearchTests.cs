using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.BreakEvens;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.Tests.LifeCycle;
using ScheduleOpt.Comparison.Tests.Year;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;

namespace ScheduleOpt.Comparison.Tests.BreakEvens;

/// <summary>Break-evens whose place is known by hand.</summary>
public sealed class BreakEvenSearchTests
{
    private static readonly BreakEvenAxis Plain = new("x", "units", 0, 100, 1e-6);

    [Fact]
    public void Run_TwoLines_MeetWhereTheyDo()
    {
        // 100 + 2 x = 50 + 3 x at 50 - which the samples hit - and, moved by 1/3, where they don't.
        var hit = BreakEvenSearch.Run(Plain, x => 100 + (2 * (decimal)x), x => 50 + (3 * (decimal)x));
        var missed = BreakEvenSearch.Run(Plain, x => 100 + (2 * (decimal)x), x => 50 + (3 * ((decimal)x + (1m / 3))));

        Assert.Equal(50, Assert.Single(hit.Found).At, 1e-6);
        Assert.Equal(49, Assert.Single(missed.Found).At, 1e-6);
        Assert.Equal((Cheaper.Second, Cheaper.First), (missed.Found[0].Below, missed.Found[0].Above));
        Assert.False(missed.Found[0].IsJump);
    }

    [Fact]
    public void Run_NoChange_SaysNoBreakEvenInRange()
    {
        var result = BreakEvenSearch.Run(Plain, _ => 1, _ => 2);

        Assert.Empty(result.Found);
        Assert.Equal("x: no break-even in range (0 to 100 units); the first costs less throughout.", result.Wording);
    }

    [Fact]
    public void Run_Step_IsAJumpAtTheStep()
    {
        var found = Assert.Single(BreakEvenSearch.Run(Plain, _ => 10, x => x < 37.3 ? 5 : 15).Found);

        Assert.Equal(37.3, found.At, 1e-6);
        Assert.True(found.IsJump);
    }

    [Fact]
    public void Run_EqualOverAStretch_GivesItsEnds()
    {
        // x - 40 below 40, nothing to 60.5, x - 60.5 above: first cheaper, equal, second cheaper.
        var found = Assert.Single(BreakEvenSearch.Run(
            Plain, x => x < 40 ? (decimal)x - 40 : x > 60.5 ? (decimal)x - 60.5m : 0, _ => 0).Found);

        Assert.Equal(40, found.From, 1e-6);
        Assert.Equal(60.5, found.Until, 1e-6);
        Assert.Equal((Cheaper.First, Cheaper.Second), (found.Below, found.Above));
    }

    [Fact]
    public void Run_OneTouchesTheOther_IsNoBreakEven() =>
        Assert.Empty(BreakEvenSearch.Run(Plain, x => (decimal)Math.Abs(x - 50), _ => 0).Found);

    [Fact]
    public void Run_SeveralCrossings_AreAllFound()
    {
        var result = BreakEvenSearch.Run(Plain with { Low = 1 }, x => (decimal)Math.Sin(x / 10), _ => 0, samples: 41);

        Assert.Equal([10 * Math.PI, 20 * Math.PI, 30 * Math.PI], result.Found.Select(f => f.At), (a, b) => Math.Abs(a - b) < 1e-5);
    }

    [Fact]
    public void OfOffPeakShare_FlatAgainstTwoPrices_IsByHand()
    {
        // 3000 * 0.15 = 60 + 3000 * (0.30 - 0.20 s): s = 0.85.
        var result = BreakEvenSearch.Run(
            BreakEvenAxis.OffPeakShare,
            BreakEvenCurves.OfOffPeakShare(3000, 0.15m, 0.15m, 0),
            BreakEvenCurves.OfOffPeakShare(3000, 0.10m, 0.30m, 60));

        Assert.Equal(0.85, Assert.Single(result.Found).At, 0.001);
    }

    [Fact]
    public void OfPriceGap_FlatAgainstTwoPrices_IsByHand()
    {
        // 450 = 60 + 3000 * (0.10 + 0.2 g): g = 0.15.
        var result = BreakEvenSearch.Run(BreakEvenAxis.PriceGap, _ => 450, BreakEvenCurves.OfPriceGap(3000, 0.8m, 0.10m, 60));

        Assert.Equal(0.15, Assert.Single(result.Found).At, 0.0001);
    }

    [Fact]
    public void OfInstallCost_WorkedCase_IsThePresentValueOfTheSavings()
    {
        // 286 * 8.53020284 = 2,439.638.
        var terms = new LifeCycleTerms { Study = LifeCycleSample.Years(10) };
        var today = LifeCycleCost.Of(LifeCycleSample.Energy("today", 1000), terms.Study, terms.Rate).Total;

        var result = BreakEvenSearch.Run(
            BreakEvenAxis.InstallCost, _ => today, BreakEvenCurves.OfInstallCost(LifeCycleSample.Energy("receptacle", 714, 1450), terms));

        Assert.Equal(2439.638, Assert.Single(result.Found).At, 0.5);
    }

    [Fact]
    public void Distance_YearRunAgain_IsWhereLossesPayForTheReceptacle()
    {
        // In 5,200 miles a year at 20 degC the outlet loses 1300 * (1.44 / 1.1192 - 7.68 / 6.9224) = 230.349 kWh more, 23.0349 at 0.10: half of
        // it in half of the distance, 2,600 miles.
        var axis = BreakEvenAxis.DistancePerYear with { High = Distance.FromMiles(5200).Kilometres, Tolerance = 50 };

        var result = BreakEvenSearch.Run(axis, x => Cost(x, Sample.Outlet), x => Cost(x, Sample.Receptacle) + 11.51745m, samples: 3);

        Assert.Equal(Distance.FromMiles(2600).Kilometres, Assert.Single(result.Found).At, 50.0);
        Assert.Equal((Cheaper.First, Cheaper.Second), (result.AtLow, result.AtHigh));

        decimal Cost(double kilometres, Core.Homes.Supply supply) => YearComparison.Run(SampleYear.HandWorked with
        {
            SetUps = [new SetUp("supply", supply)],
            Behaviours = [new OnArrival()],
            GridMinutes = 60,
            Calendar = SampleYear.HandWorked.Calendar.Scaled(kilometres / axis.High),
        }).Cells.Single().WholeHouseCost;
    }

    [Fact]
    public void Run_EmptyAxis_IsRefused() => Assert.Throws<ArgumentException>(
        () => BreakEvenSearch.Run(Plain with { High = 0 }, _ => 1, _ => 2));
}
