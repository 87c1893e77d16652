using CsCheck;
using ScheduleOpt.Core.Charging;
using static ScheduleOpt.Core.Tests.TestVehicles;

namespace ScheduleOpt.Core.Tests.Charging;

/// <summary>The charging model against figures worked out by hand from its equations, with the default constants.</summary>
public sealed class ChargingModelTests
{
    // 0.93 * 1.44 - 0.22 - 0.05 * (6 - T), T in degC: 21.1, 0, -6.67, -12.2, -17.8.
    [Theory]
    [InlineData(70, 1.1192)]
    [InlineData(32, 0.8192)]
    [InlineData(20, 0.4859)]
    [InlineData(10, 0.2081)]
    [InlineData(0, 0)]
    public void NetRate_OrdinaryOutlet_FallsWithTheTemperature(double fahrenheit, double kilowatts) =>
        Assert.Equal(kilowatts, ChargingModel.NetRateKw(1.44, Celsius(fahrenheit), Defaults), 0.0005);

    // 6 - (0.93 * P - 0.22) / 0.05.
    [Theory]
    [InlineData(1.44, -16.38)]
    [InlineData(1.92, -25.31)]
    public void NetRate_AtTheZeroChargeTemperature_JustVanishes(double wallKw, double celsius)
    {
        Assert.Equal(0, ChargingModel.NetRateKw(wallKw, celsius - 0.01, Defaults));
        Assert.InRange(ChargingModel.NetRateKw(wallKw, celsius + 0.01, Defaults), 1e-9, 0.001);
    }

    [Theory]
    [InlineData(36, 7.68, 70, 5.20, 39.94)]
    [InlineData(36, 7.68, 20, 5.72, 43.96)]
    [InlineData(18, 1.44, 70, 16.08, 23.16)]
    [InlineData(18, 1.44, 20, 37.05, 53.35)]
    [InlineData(42, 11.52, 70, 4.00, 46.1)]
    public void Filling_AwayFromTheTaper_TakesTheWorkedTimeAndEnergy(double storedKwh, double wallKw, double fahrenheit, double hours, double wallKwh)
    {
        var time = storedKwh / ChargingModel.NetRateKw(wallKw, Celsius(fahrenheit), Defaults);

        Assert.Equal(hours, time, 0.02);
        Assert.Equal(wallKwh, time * wallKw, 0.05);
    }

    [Fact]
    public void Filling_OrdinaryOutletAtZeroFahrenheit_NeverEnds() => Assert.Equal(0, ChargingModel.NetRateKw(1.44, Celsius(0), Defaults));

    [Fact]
    public void Filling_TheLastTenPerCent_TakesTheTaperedTime()
    {
        // 90 to 100 % of 60 kWh at 7.68 kW: 1.29 h, untapered 0.87 h.
        const double step = 1.0 / 240;
        var (stored, hours, rate) = (54.0, 0.0, ChargingModel.NetRateKw(7.68, 20, Defaults));
        while (stored < 60)
        {
            var accepted = Math.Min(rate, ChargingModel.TaperKw(stored, 60, step, Defaults));
            var share = Math.Min(1, (60 - stored) / (accepted * step));
            (stored, hours) = (stored + (accepted * step * share), hours + (step * share));
            stored = share < 1 ? 60 : stored;
        }

        Assert.Equal(1.29, hours, 0.03);
        Assert.Equal(0.87, 6 / rate, 0.005);
    }

    // q = (0.5 + 4 * 1.2) / (1 + 4 * d).
    [Theory]
    [InlineData(1, 1.060, 0.99767)]
    [InlineData(0.25, 2.650, 0.99104)]
    public void Taper_OneStep_IsTheImplicitOne(double hours, double kilowatts, double stateAfter)
    {
        var accepted = ChargingModel.TaperKw(0.98 * 60, 60, hours, Defaults);

        Assert.Equal(kilowatts, accepted, 1e-4);
        Assert.Equal(stateAfter, 0.98 + (accepted * hours / 60), 1e-4);
    }

    [Fact]
    public void Taper_BelowNinetyPerCent_NeverBindsAtHome() =>
        Gen.Select(Gen.Double[0, 0.9], Gen.Double[1, 19.2], Gen.Double[0.01, 1]).Sample((state, wallKw, hours) =>
            // A step that would itself run past nine tenths is out of the statement.
            state * 60 + (ChargingModel.NetRateKw(wallKw, 20, Defaults) * hours) > 54
            || ChargingModel.TaperKw(state * 60, 60, hours, Defaults) >= ChargingModel.NetRateKw(wallKw, 20, Defaults));

    [Theory]
    [InlineData(70, 7.53, 9.69, 8.36)]
    [InlineData(20, 10.38, 30.75, 12.67)]
    public void Day_Of30Miles_NeedsTheWorkedEnergy(double fahrenheit, double storedKwh, double outletKwh, double largeKwh)
    {
        var celsius = Celsius(fahrenheit);
        var stored = Consumption(1).For(Distance.FromMiles(30), celsius).KilowattHours;

        Assert.Equal(storedKwh, stored, 0.02);
        Assert.Equal(outletKwh, stored * 1.44 / ChargingModel.NetRateKw(1.44, celsius, Defaults), 0.02);
        Assert.Equal(largeKwh, stored * 7.68 / ChargingModel.NetRateKw(7.68, celsius, Defaults), 0.02);
    }

    [Fact]
    public void Price_PerStoredKwh_ADearWarmHourBeatsACheapColdOne()
    {
        var warm = 0.20 * 1.44 / ChargingModel.NetRateKw(1.44, Celsius(70), Defaults);
        var cold = 0.10 * 1.44 / ChargingModel.NetRateKw(1.44, Celsius(20), Defaults);

        Assert.Equal(0.257, warm, 0.001);
        Assert.Equal(0.296, cold, 0.001);
    }

    [Fact]
    public void NetRate_MorePower_GivesMoreOfEachKilowattHour() =>
        Gen.Select(Gen.Double[0.5, 19], Gen.Double[0.01, 5], Gen.Double[-40, 45]).Sample((wallKw, more, celsius) =>
            ChargingModel.NetRateKw(wallKw + more, celsius, Defaults) / (wallKw + more) >= ChargingModel.NetRateKw(wallKw, celsius, Defaults) / wallKw);

    [Fact]
    public void NetRate_Colder_GivesNoMore() =>
        Gen.Select(Gen.Double[0.5, 19], Gen.Double[-40, 45], Gen.Double[0, 20]).Sample((wallKw, celsius, colder) =>
            ChargingModel.NetRateKw(wallKw, celsius - colder, Defaults) <= ChargingModel.NetRateKw(wallKw, celsius, Defaults));

    [Fact]
    public void NetRate_Always_StaysBelowTheConversionEfficiency() =>
        Gen.Select(Gen.Double[0.01, 19.2], Gen.Double[-40, 45]).Sample((wallKw, celsius) =>
            ChargingModel.NetRateKw(wallKw, celsius, Defaults) / wallKw < 0.93);

    [Fact]
    public void Heating_Always_LiesBetweenNothingAndItsCap() =>
        Gen.Double[-80, 60].Sample(celsius => ChargingModel.HeatingKw(celsius, Defaults) is >= 0 and <= 2);

    [Fact]
    public void Energy_OfAnyRunOfIntervals_Balances() =>
        // wall * 0.93 - (overhead + heating) * hours on = what the battery gained, over intervals in which it gains at all.
        Gen.Select(Gen.Double[0.5, 19.2], Gen.Double[-40, 45], Gen.Double[0.01, 1]).Array[1, 40].Sample(intervals =>
        {
            var (wall, spent, gained) = (0.0, 0.0, 0.0);
            foreach (var (wallKw, celsius, hours) in intervals)
            {
                var net = ChargingModel.NetRateKw(wallKw, celsius, Defaults);
                if (net > 0)
                {
                    wall += wallKw * hours;
                    spent += (0.22 + Math.Min(2, 0.05 * Math.Max(0, 6 - celsius))) * hours;
                    gained += net * hours;
                    Assert.Equal(wallKw, ChargingModel.WallKw(net, celsius, Defaults), 1e-9);
                }
            }

            Assert.Equal(gained, (wall * 0.93) - spent, 1e-6);
        });
}
