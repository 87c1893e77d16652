using ScheduleOpt.Comparison.SetUps;

namespace ScheduleOpt.Comparison.Tests.SetUps;

public sealed class PublicPriceTests
{
    // Worked by hand on the components of the open charge-point interface's Tariff 2.3.0: FLAT 0.50 and ENERGY 0.52 by day, 0.39 by night,
    // least price 1.00.
    [Theory]
    [InlineData(0.52, 30, 16.10)]
    [InlineData(0.39, 30, 12.20)]
    [InlineData(0.39, 1, 1.00)]
    public void Session_FlatAndEnergy_IsTheWorkedFigure(double perKwh, double kwh, double cost)
    {
        var price = new PublicPrice { PerSession = 0.50m, PerKwh = (decimal)perKwh, LeastPerSession = 1.00m };

        Assert.Equal((decimal)cost, price.Session(kwh, 50).Cost);
    }

    [Fact]
    public void Session_Minutes_FollowFromEnergyAndPower()
    {
        // 24 kWh at 48 kW: 30 min; 1.00 + 24 * 0.20 + 30 * 0.15 = 10.30.
        var session = new PublicPrice { PerSession = 1, PerKwh = 0.20m, PerMinute = 0.15m }.Session(24, 48);

        Assert.Equal(30, session.Minutes, 9);
        Assert.Equal(10.30m, session.Cost);
        Assert.Equal(10.30m / 24, session.CostPerKwh);
    }

    [Fact]
    public void Year_LastSessionSmaller_PaysItsSessionPriceToo()
    {
        // 100 kWh by 40: two sessions of 1 + 16 and one of 1 + 8: 43.00. Three detours of 20 min: 1 h at 15.
        var price = new PublicPrice { PerSession = 1, PerKwh = 0.40m, DetourMinutes = 20, TimeValuePerHour = 15 };

        var year = PublicYear.Of(price, 100, 40, 50);

        Assert.Equal((3, 43.00m), (year.Sessions, year.Cost));
        Assert.Equal(1, year.DetourHours, 9);
        Assert.Equal(15m, year.DetourValue);
        Assert.Null(PublicYear.Of(price with { TimeValuePerHour = null }, 100, 40, 50).DetourValue);
        Assert.Equal((2, 34.00m), (PublicYear.Of(price, 80, 40, 50).Sessions, PublicYear.Of(price, 80, 40, 50).Cost));
        Assert.Equal((0, 0m), (PublicYear.Of(price, 0, 40, 50).Sessions, PublicYear.Of(price, 0, 40, 50).Cost));
    }

    [Fact]
    public void SessionKwh_Car_IsFromMinimumToOrdinaryLimitAtThePublicMeter() =>
        Assert.Equal(60 * 0.7 / 0.92, PublicYear.SessionKwh(Sample.Car), 1e-9);

    [Fact]
    public void Contradictions_NegativePrice_IsNamed() =>
        Assert.Equal(2, new PublicPrice { PerKwh = -0.1m, DetourMinutes = 1001 }.Contradictions().Count);

    [Theory]
    [InlineData(-1, 50)]
    [InlineData(10, 0)]
    [InlineData(double.NaN, 50)]
    [InlineData(10, double.PositiveInfinity)]
    public void Session_ImpossibleFigures_AreRefused(double kwh, double kw) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new PublicPrice().Session(kwh, kw));
}
