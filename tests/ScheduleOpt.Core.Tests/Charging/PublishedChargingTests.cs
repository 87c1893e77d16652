using ScheduleOpt.Core.Charging;
using static ScheduleOpt.Core.Tests.TestVehicles;

namespace ScheduleOpt.Core.Tests.Charging;

/// <summary>Charging against published figures. The tolerance is the spread of the source; 'trade' is common practice without a source.</summary>
public sealed class PublishedChargingTests
{
    [Fact]
    public void Loss_At11KwInMildWeather_IsWithinTheMeasuredRange()
    {
        // ADAC charging-loss test, 2022: 6.3 to 9.7 % at 11 kW.
        var loss = 1 - (ChargingModel.NetRateKw(11, 20, Defaults) / 11);

        Assert.InRange(loss, 0.063, 0.097);
        Assert.Equal(0.090, loss, 3);
    }

    [Fact]
    public void RangePerHour_At6Point6Kw_IsThePublishedOne() =>
        // US EPA: about 25 miles of range an hour at 6.6 kW.
        Assert.Equal(25, RatedMilesPerHour(6.6), 3.0);

    [Fact]
    public void RangePerHour_OrdinaryOutlet_IsWithinThePublishedRange() =>
        // ENERGY STAR, Level 1: 2 to 5 miles an hour.
        Assert.InRange(RatedMilesPerHour(1.44), 2, 5);

    [Theory]
    [InlineData(3.6, 12.5)]
    [InlineData(15.36, 56.3)]
    public void RangePerHour_Level2_IsWithinThePublishedRange(double wallKw, double model)
    {
        // ENERGY STAR, Level 2: 10 to 60 miles an hour, up to 64 A.
        Assert.InRange(RatedMilesPerHour(wallKw), 10, 60);
        Assert.Equal(model, RatedMilesPerHour(wallKw), 0.05);
    }

    [Fact]
    public void RangePerHour_At80Amperes_IsAboveThePublishedRange() =>
        // The pilot's maximum; ENERGY STAR's range ends at 60.
        Assert.Equal(70.5, RatedMilesPerHour(19.2), 0.05);

    [Fact]
    public void OrdinaryOutlet_Mild_GivesWhatTheTradeExpects()
    {
        // Trade: 0.95 to 1.25 kW into the car, 3 to 7 miles an hour.
        Assert.InRange(ChargingModel.NetRateKw(1.44, 20, Defaults), 0.95, 1.25);
        Assert.InRange(RatedMilesPerHour(1.44), 3, 7);
    }

    [Theory]
    [InlineData(25, 1.88)]
    [InlineData(20, 1.40)]
    [InlineData(15, 0.96)]
    public void OrdinaryOutlet_Frost_GivesOneOrTwoRealMilesAnHour(double fahrenheit, double model)
    {
        // Trade: 1 to 2 real miles an hour in frost; 0.9 to 2.05 with rounding.
        var miles = RealMilesPerHour(1.44, fahrenheit);

        Assert.InRange(miles, 0.9, 2.05);
        Assert.Equal(model, miles, 0.006);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(-20)]
    public void OrdinaryOutlet_DeepCold_GivesNothing(double fahrenheit) =>
        // Trade: it may give none at all.
        Assert.Equal(0, RealMilesPerHour(1.44, fahrenheit), 0.05);

    [Fact]
    public void LargeOutlet_32Amperes_GivesWhatTheTradeExpects() =>
        // Trade: 8 kW, 30 miles an hour.
        Assert.InRange(RatedMilesPerHour(7.68), 25, 32);

    [Theory]
    [InlineData(9.6, 34.8)]
    [InlineData(11.52, 42.0)]
    public void HardwiredUnit_40And48Amperes_GiveWhatTheTradeExpects(double wallKw, double model)
    {
        // Trade: 30 to 44 miles an hour.
        Assert.InRange(RatedMilesPerHour(wallKw), 30, 44);
        Assert.Equal(model, RatedMilesPerHour(wallKw), 0.05);
    }

    private static double RatedMilesPerHour(double wallKw) => ChargingModel.NetRateKw(wallKw, 20, Defaults) / KwhPerMile;

    private static double RealMilesPerHour(double wallKw, double fahrenheit) =>
        ChargingModel.NetRateKw(wallKw, Celsius(fahrenheit), Defaults) / (KwhPerMile * Consumption(1).Factor(Celsius(fahrenheit)));
}
