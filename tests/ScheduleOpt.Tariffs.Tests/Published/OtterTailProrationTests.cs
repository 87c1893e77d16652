using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// Otter Tail Power Company, "How to read my bill", rule effective 1 February 2019: otpco.com/pay-my-bill/how-to-read-my-bill/
// $9.75 a month of 365/12 days; meter read on 11 December 2018 and 9 January 2019 (29 days), 600 kWh spread evenly by day; 20 days lie before
// the turn of the year and 9 after it, so that a reading is taken to end its day. Prices per kWh are not printed: zero stands for them.
public class OtterTailProrationTests
{
    [Fact]
    public void TwentyNineDays_OverTheTurnOfTheYear_FixedChargeAndUseAreProrated()
    {
        var plan = Plans.Of("""
            timeZone: America/Chicago
            customerCharges:
              - { name: Customer charge, amount: 9.75, per: month }
            energyCharges:
              - { name: Until 31 December, until: 2018-12-31, pricePerKwh: 0 }
              - { name: From 1 January, from: 2019-01-01, pricePerKwh: 0 }
            proration: { month: averageMonth }
            """);
        var series = Plans.Even(Plans.Midnight("America/Chicago", 2018, 12, 12), Duration.FromDays(1), 29, 600);

        var statement = Biller.Bill(plan, series, readingDates: []).Periods.Single();

        Assert.Equal(29, statement.Days);
        Assert.Equal([9.30m, 0, 0], statement.Lines.Select(l => l.Amount));
        // Each day's use is rounded to the millionth of a kWh before it is added up.
        Assert.Equal(20.689655m, series.MicroKilowattHours[0] / 1_000_000m);
        Assert.InRange(statement.Lines[1].Quantity, 413.79308m, 413.79312m);
        Assert.InRange(statement.Lines[2].Quantity, 186.20688m, 186.20692m);
    }
}
