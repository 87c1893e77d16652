using ScheduleOpt.Comparison.Seasons;
using ScheduleOpt.Comparison.Tests.Year;

namespace ScheduleOpt.Comparison.Tests.Seasons;

public sealed class SeasonOutlookTests
{
    [Fact]
    public void Of_SaturdaysOnly_IsThePencilsFigure()
    {
        // January, February and December 2026: 90 days, 13 Saturdays of 25 kWh and 8 h away. At 20 degC: 1.1192 kW.
        var winter = SeasonOutlook.Of(
            Sample.Car, Sample.Outlet, SampleYear.HandWorked.Calendar, SampleYear.Constant(20), Sample.Chicago, 2026)[0];

        Assert.Equal("December to February", winter.Months);
        Assert.Equal(20, winter.MeanC, 1e-9);
        Assert.Equal(13 * 25 / 90.0, winter.DriveKwhPerDay, 1e-9);
        Assert.Equal(((90 * 24) - (13 * 8)) / 90.0, winter.HomeHoursPerDay, 1e-9);
        Assert.Equal(1.1192, winter.Range.NetKw, 1e-9);
        Assert.Equal(4.4768, winter.Range.Rated.Miles, 1e-4);
        Assert.Equal(winter.Range.Rated.Miles, winter.Range.Real.Miles, 1e-9);
        Assert.Equal(7 * 13 * 25 / 90.0 / 42, winter.Nights.ByBattery, 1e-9);
        Assert.Equal(7 * 13 * 25 / 90.0 / (1.1192 * winter.HomeHoursPerDay), winter.Nights.PerWeek, 1e-9);
        Assert.Equal(1, winter.Nights.WholeNights);
    }

    [Fact]
    public void Of_YearWithAWinter_GivesFourQuartersAndThePoorestInTheCold()
    {
        var quarters = SeasonOutlook.Of(
            Sample.Car, Sample.Outlet, SampleYear.Commuting(2026, Sample.Chicago), SampleYear.Cold, Sample.Chicago, 2026);

        Assert.Equal(4, quarters.Count);
        Assert.Equal(quarters.Min(q => q.MeanC), quarters[0].MeanC);
        Assert.Equal(quarters.Min(q => q.Range.NetKw), quarters[0].Range.NetKw);
        Assert.Equal(quarters.Max(q => q.Nights.PerWeek), quarters[0].Nights.PerWeek);
        Assert.All(quarters, q => Assert.True(q.Range.Real <= q.Range.Rated));
    }

    // 30 miles a day at 20 degF need 10.38 kWh; 12 h at 120 V, 12 A give 5.83 kWh: every night is not enough. At 240 V, 32 A a night fills the
    // band of 42 kWh: 7 * 10.38 / 42 = 1.73 nights.
    [Theory]
    [InlineData(10.38, 5.83, 12.463, null)]
    [InlineData(10.38, 75.4, 1.73, 2)]
    [InlineData(6, 6, 7, 7)]
    [InlineData(0, 0, 0, 0)]
    [InlineData(5, 0, double.PositiveInfinity, null)]
    public void PlugNights_DriveAgainstBatteryAndSupply_IsTheLargerNeed(double driveKwh, double nightKwh, double perWeek, int? whole)
    {
        var nights = PlugNights.Of(Sample.Car, driveKwh, nightKwh);

        Assert.Equal(perWeek, nights.PerWeek, 1e-3);
        Assert.Equal(whole, nights.WholeNights);
        Assert.Equal(whole is not null, nights.KeepsUp);
    }
}
