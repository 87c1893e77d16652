using ScheduleOpt.Interchange.HouseLoads;

namespace ScheduleOpt.Interchange.Tests.HouseLoads;

public sealed class BillCalibrationTests
{
    // By hand: twelve bills of 1,000 kWh; six months modelled at 1,010 and six at 970. Differences -10 and 30: their sum is 120 and
    // 120 / (11 x 1,000) = 1.0909 %; their squares add up to 6 x 100 + 6 x 900 = 6,000 and sqrt(6,000 / 11) / 1,000 = 2.3355 %.
    // Formulas: ASHRAE Guideline 14-2014 with n - p, p = 1, as mepvault.com/cv-rmse-calibration-energy-model gives them.
    [Fact]
    public void Calibration_WorkedByHand_HasItsFigures()
    {
        var result = new BillCalibration(Twelve(_ => 1000), Twelve(m => m < 6 ? 1010 : 970));
        Assert.Equal(120.0 / 11000, result.Bias, 12);
        Assert.Equal(0.023355, result.Scatter, 6);
        Assert.True(result.IsCalibrated);
    }

    // 5 % and 15 %, the limits themselves included: a model that is 46 kWh low in each of twelve months of 1,000 has a bias of 552 / 11,000 = 5.018 %.
    [Theory]
    [InlineData(45, true)]
    [InlineData(46, false)]
    [InlineData(-45, true)]
    [InlineData(-46, false)]
    public void Calibration_BiasAroundItsLimit_Decides(double kwh, bool calibrated) =>
        Assert.Equal(calibrated, new BillCalibration(Twelve(_ => 1000), Twelve(_ => 1000 - kwh)).IsCalibrated);

    // Without bias, 143 kWh up and down in turn: sqrt(12 x 143^2 / 11) / 1,000 = 14.94 %; 144 kWh: 15.04 %.
    [Theory]
    [InlineData(143, true)]
    [InlineData(144, false)]
    public void Calibration_ScatterAroundItsLimit_Decides(double kwh, bool calibrated)
    {
        var result = new BillCalibration(Twelve(_ => 1000), Twelve(m => m % 2 == 0 ? 1000 + kwh : 1000 - kwh));
        Assert.Equal(0, result.Bias, 12);
        Assert.Equal(calibrated, result.IsCalibrated);
    }

    private static double[] Twelve(Func<int, double> month) => [.. Enumerable.Range(0, 12).Select(month)];
}
