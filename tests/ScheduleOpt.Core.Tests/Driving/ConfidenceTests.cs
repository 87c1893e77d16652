using CsCheck;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Core.Tests.Driving;

public sealed class ConfidenceTests
{
    // Abramowitz and Stegun, Handbook of Mathematical Functions (1964), table 26.5: x for a given P(x), five decimals.
    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.75, 0.67449)]
    [InlineData(0.8, 0.84162)]
    [InlineData(0.9, 1.28155)]
    [InlineData(0.95, 1.64485)]
    [InlineData(0.975, 1.95996)]
    [InlineData(0.99, 2.32635)]
    [InlineData(0.995, 2.57583)]
    [InlineData(0.999, 3.09023)]
    public void NormalQuantile_TabledProbabilities_AreThoseOfTheTable(double p, double z)
    {
        Assert.Equal(z, Confidence.NormalQuantile(p), 5e-6);
        Assert.Equal(-z, Confidence.NormalQuantile(1 - p), 5e-6);
    }

    [Fact]
    public void NormalQuantile_FarTail_IsThePublishedOne() =>
        // The six-sigma tail: P(-6) = 9.8659e-10 (Abramowitz and Stegun, table 26.1 continued by 26.2).
        Assert.Equal(-6, Confidence.NormalQuantile(9.865876450377e-10), 1e-5);

    [Fact]
    public void Factor_AtNineTenths_IsTheWorkedOne() => Assert.Equal(1.128155, Confidence.Factor(0.9, 0.10), 1e-6);

    [Fact]
    public void Factor_MoreConfidence_IsNeverLess() =>
        Gen.Select(Gen.Double[0.5, 0.999], Gen.Double[0.5, 0.999], Gen.Double[0, 0.5]).Sample((a, b, spread) =>
            Confidence.Factor(Math.Min(a, b), spread) <= Confidence.Factor(Math.Max(a, b), spread) + 1e-12);

    [Theory]
    [InlineData(0.49)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Factor_OutsideItsRange_IsRefused(double confidence) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Confidence.Factor(confidence, 0.1));
}
