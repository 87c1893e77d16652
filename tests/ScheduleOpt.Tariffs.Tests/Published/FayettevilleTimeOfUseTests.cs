namespace ScheduleOpt.Tariffs.Tests.Published;

// Fayetteville Public Works Commission, "Online Usage Calculator - Time-of-Use Rates", year not shown: faypwc.com/online-usage-calculator-tou/
// On-peak $0.13, off-peak $0.08473; weekdays 15 to 19 from April to October, 6 to 10 from November to March, not on its holidays. No fixed charge.
// 1,000 kWh, 800 off-peak: 93.78; 850 off-peak: 91.52; difference of the rounded sums 2.26.
public class FayettevilleTimeOfUseTests
{
    private static readonly RatePlan Plan = Plans.Of("""
        timeZone: America/New_York
        seasons:
          - { name: summer, ranges: [ { from: 04-01, to: 10-31 } ] }
          - { name: winter, ranges: [ { from: 11-01, to: 03-31 } ] }
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }
        holidays: []
        periods: [on-peak, off-peak]
        windows:
          - { period: on-peak, seasons: [summer], dayTypes: [weekday], from: 15:00, to: 19:00 }
          - { period: on-peak, seasons: [winter], dayTypes: [weekday], from: 06:00, to: 10:00 }
        defaultPeriod: off-peak
        energyCharges:
          - { name: On-peak, periods: [on-peak], pricePerKwh: 0.13 }
          - { name: Off-peak, periods: [off-peak], pricePerKwh: 0.08473 }
        rounding: { each: bill, mode: halfUp }
        """);

    [Theory]
    [InlineData(7, 15, 16)]
    [InlineData(1, 6, 10)]
    public void Month_200And150KwhOnPeak_TheThreePublishedFigures(int month, int onPeakHour, int offPeakHour)
    {
        var first = Total(month, onPeakHour, offPeakHour, 800);
        var second = Total(month, onPeakHour, offPeakHour, 850);

        Assert.Equal(93.78m, first);
        Assert.Equal(91.52m, second);
        Assert.Equal(2.26m, first - second);
    }

    // 1 July 2026 is a Wednesday; 1 January 2026 is a Thursday. Off-peak use on the Saturday after, at an hour that is on-peak on weekdays or just past.
    private static decimal Total(int month, int onPeakHour, int offPeakHour, double offPeak)
    {
        var saturday = (month == 7 ? 3 : 2) * 24;
        return Biller.Bill(Plan, Plans.WithUse(
            Plans.Midnight("America/New_York", 2026, month, 1), 31 * 24, (onPeakHour, 1000 - offPeak), (saturday + offPeakHour, offPeak))).Total;
    }
}
