using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Tests.Year;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Comparison.Tests.Winters;

/// <summary>Several weather years, and what one typical year does not show.</summary>
public sealed class WinterComparisonTests
{
    [Fact]
    public void Run_ThreeMeasuredYears_GivesTheMedianAndRangeOfEachRunAlone()
    {
        var question = Case(Measured(8), Measured(-2), Measured(3));
        var alone = new[] { 8.0, -2, 3 }.Select(c => YearComparison.Run(Case(Measured(c))).Cells).ToArray();

        var result = WinterComparison.Run(question);

        for (var c = 0; c < result.Cells.Count; c++)
        {
            decimal[] costs = [.. alone.Select(cells => cells[c].CarCost).Order()];
            Assert.Equal(new MedianAndRange(costs[1], costs[0], costs[2]), result.Cells[c].CarCost);
            Assert.Equal(alone.Max(cells => cells[c].Readiness.Share!.Value), (double)result.Cells[c].ReadyShare!.Value.Most, 1e-12);
        }

        Assert.Equal("worst on record of 3 measured years", result.ColdestWeek.Wording);
        Assert.Equal(1, result.ColdestYear);
        Assert.Null(result.Stress);
        Assert.All(result.Cells, c => Assert.Null(c.Stressed));
    }

    [Fact]
    public void Run_OneTypicalYear_IsStressedByTenKelvinInItsColdestWeekAlone()
    {
        var question = Case(SampleYear.Cold);

        var result = WinterComparison.Run(question);

        // The week from 12 January at -19 degC on the mean: the outlet stores nothing at -29, so no departure of that week is served from it.
        Assert.Equal("coldest week of a typical year", result.ColdestWeek.Wording);
        Assert.Contains("10 K colder", result.Stress, StringComparison.Ordinal);
        var cell = result.Cells[0];
        Assert.Equal(7, cell.ColdestWeek.Count);
        Assert.Equal(7, cell.Stressed!.Count);
        for (var d = 0; d < 7; d++)
        {
            Assert.Equal(cell.ColdestWeek[d].MeanC - 10, cell.Stressed[d].MeanC, 1e-9);
            Assert.Equal(cell.ColdestWeek[d].Readiness.Departures, cell.Stressed[d].Readiness.Departures);
        }

        Assert.True(cell.Stressed.Sum(d => d.Readiness.TripShortfallKwh) > cell.ColdestWeek.Sum(d => d.Readiness.TripShortfallKwh));
    }

    [Fact]
    public void ColdestWeekDays_OfACell_AddUpToItsWeek()
    {
        foreach (var cell in YearComparison.Run(Case(SampleYear.Cold)).Cells)
        {
            Assert.Equal(cell.ColdestWeek.Departures, cell.ColdestWeekDays.Sum(d => d.Readiness.Departures));
            Assert.Equal(cell.ColdestWeek.Ready, cell.ColdestWeekDays.Sum(d => d.Readiness.Ready));
        }
    }

    [Fact]
    public void Run_ATypicalYearBesideAMeasuredOne_SpeaksOfTheMeasuredOne()
    {
        var result = WinterComparison.Run(Case(SampleYear.Cold, Measured(5)));

        Assert.Equal((1, "coldest week of the measured year"), (result.ColdestYear, result.ColdestWeek.Wording));
        Assert.Null(result.Stress);
    }

    [Theory]
    [InlineData(new[] { 3.0 }, 3.0, 3.0, 3.0)]
    [InlineData(new[] { 5.0, 1.0 }, 3.0, 1.0, 5.0)]
    [InlineData(new[] { 5.0, 1.0, 2.0, 9.0, 4.0 }, 4.0, 1.0, 9.0)]
    public void MedianAndRange_IsThatOfTheTextbook(double[] values, double median, double least, double most) =>
        Assert.Equal(new MedianAndRange((decimal)median, (decimal)least, (decimal)most), MedianAndRange.Of(values.Select(v => (decimal)v)));

    [Fact]
    public void Contradictions_SixWeatherYears_AreTooMany() =>
        Assert.Single(YearCaseCheck.Contradictions(Case(SampleYear.Cold) with { FurtherWeather = [.. Enumerable.Repeat(SampleYear.Cold, 5)] }));

    private static WeatherYear Measured(double mean) => new(
        Enumerable.Range(0, WeatherYear.Hours).Select(h => mean - (9 * Math.Cos(((h / 24.0) - 20) * 2 * Math.PI / 365))), "invented", isTypical: false);

    private static YearCase Case(WeatherYear first, params WeatherYear[] further) => SampleYear.Case(SampleYear.TimeOfUse()) with
    {
        SetUps = [new SetUp("outlet", Sample.Outlet)], Behaviours = [new OnArrival(), new LeastCostKnownAhead()], Weather = first, FurtherWeather = further,
    };
}
