using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// America/Chicago 2026: 8 March has 23 hours (02:00 to 03:00 is skipped), 1 November has 25 (01:00 to 02:00 comes twice).
public class ClockChangeTests
{
    private const string Zone = "America/Chicago";

    private static readonly RatePlan Plan = Plans.Of("""
        timeZone: America/Chicago
        periods: [night, day]
        windows:
          - { period: night, from: 23:30, to: 06:30 }
          - { period: day, from: 06:30, to: 23:30 }
        energyCharges:
          - { name: Night, periods: [night], pricePerKwh: 0.10 }
          - { name: Day, periods: [day], pricePerKwh: 0.20 }
        proration: { month: daysInMonth }
        """);

    [Theory]
    [InlineData(3, 7, 7)]
    [InlineData(3, 8, 6)]
    [InlineData(10, 31, 7)]
    [InlineData(11, 1, 8)]
    public void NightWindow_OneKwhAnHour_FollowsTheLabelsOfTheClock(int month, int day, int nightHours)
    {
        var hours = (int)(Next(month, day) - Midnight(month, day)).TotalHours;
        var quarters = Plans.Even(Midnight(month, day), Duration.FromMinutes(15), hours * 4, hours);

        var bill = Biller.Bill(Plan, quarters);

        Assert.Equal(nightHours, bill.Periods.Single().Lines[0].Quantity);
        Assert.Equal(hours - nightHours, bill.Periods.Single().Lines[1].Quantity);
        Assert.Equal(1, bill.Periods.Single().Days);
    }

    [Fact]
    public void RepeatedHour_UsedBothTimes_IsBilledTwiceAtItsLabel()
    {
        var plan = Plans.Of("""
            timeZone: America/Chicago
            periods: [one, other]
            windows:
              - { period: one, from: 01:00, to: 02:00 }
            defaultPeriod: other
            energyCharges:
              - { name: One o'clock, periods: [one], pricePerKwh: 1 }
              - { name: Other, periods: [other], pricePerKwh: 0 }
            """);
        var load = Plans.WithUse(Midnight(11, 1), 25, (1, 3), (2, 4), (3, 5));

        Assert.Equal(7m, Biller.Bill(plan, load).Total);
    }

    [Fact]
    public void SkippedHour_WindowInsideTheGap_HasNoUse()
    {
        var plan = Plans.Of("""
            timeZone: America/Chicago
            periods: [two, other]
            windows:
              - { period: two, from: 02:00, to: 03:00 }
            defaultPeriod: other
            energyCharges:
              - { name: Two o'clock, periods: [two], pricePerKwh: 1 }
              - { name: Other, periods: [other], pricePerKwh: 0 }
            """);

        Assert.Equal(0m, Biller.Bill(plan, Plans.Even(Midnight(3, 8), Duration.FromHours(1), 23, 23)).Total);
        Assert.Equal(1m, Biller.Bill(plan, Plans.Even(Midnight(3, 7), Duration.FromHours(1), 24, 24)).Total);
    }

    [Fact]
    public void MonthsWithAClockChange_ByDaysInMonth_CountAsOneMonth()
    {
        var march = Plans.Even(Midnight(3, 1), Duration.FromHours(1), (31 * 24) - 1, 100);
        var november = Plans.Even(Midnight(11, 1), Duration.FromHours(1), (30 * 24) + 1, 100);

        Assert.Equal(31m, Biller.Bill(Plan, march).Periods.Single().Days);
        Assert.Equal(30m, Biller.Bill(Plan, november).Periods.Single().Days);
    }

    [Fact]
    public void PriceSchedule_OverTheLongNight_ChangesAtTheSameInstantsAsTheBill()
    {
        var prices = PriceScheduleBuilder.Build(Plan, Midnight(11, 1), Next(11, 1));

        Assert.Equal(
            [Duration.Zero, Duration.FromHours(7.5), Duration.FromHours(24.5)],
            prices.Spans.Select(s => s.Start - Midnight(11, 1)));
        Assert.Equal([0.10m, 0.20m, 0.10m], prices.Spans.Select(s => s.ImportPerKwh));
    }

    private static Instant Midnight(int month, int day) => Plans.Midnight(Zone, 2026, month, day);

    private static Instant Next(int month, int day)
    {
        var next = new LocalDate(2026, month, day).PlusDays(1);
        return Plans.Midnight(Zone, next.Year, next.Month, next.Day);
    }
}
