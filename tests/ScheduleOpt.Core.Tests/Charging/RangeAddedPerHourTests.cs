using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Core.Tests.Charging;

/// <summary>Range added per hour, for 0.25 kWh per mile at 20 degC.</summary>
public sealed class RangeAddedPerHourTests
{
    /// <summary>Volts, phases, amperes, then kW into the battery and rated miles at 70, 32, 20, 10, 0 and -20 degF: arithmetic of the charging
    /// model at its defaults, to the decimals shown.</summary>
    public static TheoryData<int, int, double, double[]> Table { get; } = new()
    {
        { 120, 1, 8, [0.67, 2.7, 0.37, 1.5, 0.04, 0.2, 0, 0, 0, 0, 0, 0] },
        { 120, 1, 12, [1.12, 4.5, 0.82, 3.3, 0.49, 1.9, 0.21, 0.8, 0, 0, 0, 0] },
        { 120, 1, 16, [1.57, 6.3, 1.27, 5.1, 0.93, 3.7, 0.65, 2.6, 0.38, 1.5, 0, 0] },
        { 208, 1, 32, [5.97, 23.9, 5.67, 22.7, 5.34, 21.3, 5.06, 20.2, 4.78, 19.1, 4.23, 16.9] },
        { 240, 1, 16, [3.35, 13.4, 3.05, 12.2, 2.72, 10.9, 2.44, 9.8, 2.16, 8.6, 1.61, 6.4] },
        { 240, 1, 24, [5.14, 20.5, 4.84, 19.3, 4.50, 18.0, 4.23, 16.9, 3.95, 15.8, 3.39, 13.6] },
        { 240, 1, 32, [6.92, 27.7, 6.62, 26.5, 6.29, 25.2, 6.01, 24.0, 5.73, 22.9, 5.18, 20.7] },
        { 240, 1, 40, [8.71, 34.8, 8.41, 33.6, 8.07, 32.3, 7.80, 31.2, 7.52, 30.1, 6.96, 27.9] },
        { 240, 1, 48, [10.49, 42.0, 10.19, 40.8, 9.86, 39.4, 9.58, 38.3, 9.30, 37.2, 8.75, 35.0] },
        { 230, 1, 10, [1.92, 7.7, 1.62, 6.5, 1.29, 5.1, 1.01, 4.0, 0.73, 2.9, 0.17, 0.7] },
        { 400, 3, 16, [10.05, 40.2, 9.75, 39.0, 9.41, 37.7, 9.14, 36.5, 8.86, 35.4, 8.30, 33.2] },
    };

    [Theory]
    [MemberData(nameof(Table))]
    public void Of_SupplyAndTemperature_IsTheTable(int voltageV, int phases, double currentA, double[] expected)
    {
        double[] fahrenheit = [70, 32, 20, 10, 0, -20];
        for (var i = 0; i < fahrenheit.Length; i++)
        {
            var range = At(voltageV, phases, currentA, fahrenheit[i]);

            Assert.Equal(expected[2 * i], range.NetKw, 0.0051);
            Assert.Equal(expected[(2 * i) + 1], range.Rated.Miles, 0.051);
        }
    }

    // US EPA, Charging My Electric Vehicle: 25 mi/h at 6.6 kW; US EPA ENERGY STAR, EVSE: Level 1 2 to 5, Level 2 10 to 60 mi/h.
    [Theory]
    [InlineData(240, 27.5, 22, 28)]
    [InlineData(120, 12, 2, 5)]
    [InlineData(240, 15, 10, 60)]
    [InlineData(240, 64, 10, 60)]
    public void Rated_MildWeather_LiesInTheAgenciesRange(int voltageV, double currentA, double low, double high) =>
        Assert.InRange(At(voltageV, 1, currentA, 68).Rated.Miles, low, high);

    // Common practice, no source: 120 V gives 1 to 2 real miles an hour from 25 to 15 degF and may give none below 0 degF.
    [Theory]
    [InlineData(25, 1.88)]
    [InlineData(20, 1.40)]
    [InlineData(15, 0.96)]
    [InlineData(0, 0)]
    [InlineData(-5, 0)]
    public void Real_OrdinaryOutletInFrost_IsOneToTwoMiles(double fahrenheit, double miles)
    {
        var range = At(120, 1, 12, fahrenheit);

        Assert.Equal(miles, range.Real.Miles, 0.005);
        Assert.True(range.Real <= range.Rated);
    }

    // Common practice, no source: 8 kW and 30 mi/h at 240 V, 32 A; 30 to 44 mi/h hardwired.
    [Theory]
    [InlineData(32, 25, 32)]
    [InlineData(40, 30, 44)]
    [InlineData(48, 30, 44)]
    public void Rated_TwoHundredFortyVolts_LiesWhereTheTradeSays(double currentA, double low, double high) =>
        Assert.InRange(At(240, 1, currentA, 70).Rated.Miles, low, high);

    [Fact]
    public void Mean_HoursThatGiveNothing_CountAsZero()
    {
        // 1.1192 kW at 20 degC and none at -30 degC: half.
        var supply = Supply(120, 1, 12);

        Assert.Equal(0.5596, RangeAddedPerHour.Mean(TestVehicles.With(22), supply, [20, -30]).NetKw, 1e-9);
        Assert.Throws<ArgumentException>(() => RangeAddedPerHour.Mean(TestVehicles.With(22), supply, []));
    }

    private static RangeAddedPerHour At(int voltageV, int phases, double currentA, double fahrenheit) =>
        RangeAddedPerHour.Of(TestVehicles.With(22), Supply(voltageV, phases, currentA), Temperature.FromFahrenheit(fahrenheit).Celsius);

    private static Supply Supply(int voltageV, int phases, double currentA) => new()
    {
        VoltageV = voltageV, Phases = phases, BreakerA = currentA, StatedCurrentA = currentA, Rule = ContinuousRatingRule.DedicatedCircuit,
    };
}
