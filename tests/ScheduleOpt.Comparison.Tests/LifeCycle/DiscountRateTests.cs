using ScheduleOpt.Comparison.LifeCycle;

namespace ScheduleOpt.Comparison.Tests.LifeCycle;

public sealed class DiscountRateTests
{
    // Present-worth tables at 3 %, as in the Annual Supplement to NIST Handbook 135 (NISTIR 85-3273), three and two decimals.
    [Theory]
    [InlineData(1, 0.971, 0.97)]
    [InlineData(5, 0.863, 4.58)]
    [InlineData(10, 0.744, 8.53)]
    [InlineData(20, 0.554, 14.88)]
    [InlineData(30, 0.412, 19.60)]
    public void Factors_ThreePerCent_AreThePublishedOnes(int year, double single, double uniform)
    {
        Assert.Equal(single, (double)DiscountRate.Default.SinglePresentValue(year), 5e-4);
        Assert.Equal(uniform, (double)DiscountRate.Default.UniformPresentValue(year), 5e-3);
    }

    // NIST Handbook 135, modified uniform present value: (1 + e) / (d - e) * (1 - ((1 + e) / (1 + d))^N); N where d = e.
    [Theory]
    [InlineData(0.03, 0.01, 10)]
    [InlineData(0.03, -0.02, 25)]
    [InlineData(0.00, 0.04, 7)]
    [InlineData(0.05, 0.05, 12)]
    public void UniformPresentValue_Escalating_IsTheClosedForm(double rate, double escalation, int years)
    {
        var expected = rate == escalation
            ? years
            : (1 + escalation) / (rate - escalation) * (1 - Math.Pow((1 + escalation) / (1 + rate), years));

        var factor = DiscountRate.Chosen((decimal)rate)
            .UniformPresentValue(years, EnergyPricePath.Escalating((decimal)escalation, "test"));

        Assert.Equal(expected, (double)factor, 1e-9);
    }

    [Fact]
    public void Of_Loan_IsFreedFromInflation()
    {
        // 1.07 / 1.025 - 1.
        Assert.Equal(0.0439024, (double)DiscountRate.Of(new Loan(0.07m, 0.025m)).Real, 1e-7);
        Assert.Equal(-0.0243902, (double)DiscountRate.Of(new Loan(0, 0.025m)).Real, 1e-7);
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(0.101)]
    public void Chosen_OutsideZeroToTenPerCent_IsRefused(double rate) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DiscountRate.Chosen((decimal)rate));

    [Fact]
    public void Index_Projection_HoldsAfterItsLastYear()
    {
        var path = EnergyPricePath.Projected([1.02m, 1.05m], "test");

        Assert.Equal([1m, 1.02m, 1.05m, 1.05m], Enumerable.Range(0, 4).Select(path.Index));
    }
}
