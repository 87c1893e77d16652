using CsCheck;
using static ScheduleOpt.Core.Tests.TestVehicles;

namespace ScheduleOpt.Core.Tests.Driving;

public sealed class ConsumptionTests
{
    [Fact]
    public void Factor_At20Fahrenheit_IsWithinThePublishedRange()
    {
        // Yuksel and Michalek 2015: 1.36; AAA 2019 with full cabin heat: 1.55 to 1.64.
        var factor = Consumption(1).Factor(Celsius(20));

        Assert.InRange(factor, 1.34, 1.66);
        Assert.Equal(1.383, factor, 0.0005);
    }

    [Fact]
    public void Factor_At20FahrenheitWithResistiveHeat_IsThePublishedOne()
    {
        // AAA 2019: 1 / (1 - 0.356) = 1.553 to 1 / (1 - 0.39) = 1.639.
        var factor = Consumption(1.6).Factor(Celsius(20));

        Assert.InRange(factor, 1.50, 1.70);
        Assert.Equal(1.613, factor, 0.0005);
    }

    [Theory]
    [InlineData(20, 1.00)]
    [InlineData(0, 1.25)]
    [InlineData(-10, 1.45)]
    [InlineData(-30, 1.90)]
    [InlineData(-45, 1.90)]
    [InlineData(40, 1.20)]
    [InlineData(50, 1.20)]
    [InlineData(-2.5, 1.30)]
    public void Factor_AtAndBetweenItsKnots_IsLinearAndConstantOutside(double celsius, double factor) =>
        Assert.Equal(factor, Consumption(1).Factor(celsius), 12);

    [Fact]
    public void Factor_InsensitiveCar_IsOneEverywhere() => Gen.Double[-60, 60].Sample(celsius => Consumption(0).Factor(celsius) == 1);

    [Fact]
    public void Factor_ColderBelowTwenty_NeverFalls() =>
        Gen.Select(Gen.Double[-60, 20], Gen.Double[0, 30]).Sample((celsius, colder) =>
            Consumption(1).Factor(celsius - colder) >= Consumption(1).Factor(celsius) - 1e-12);
}
