using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// City of River Falls (Wisconsin), "Time-of Day Rates", rates as of 29 September 2020: wi-riverfalls.civicplus.com/606/Time-of-Day-Rates
// Standard $0.1110/kWh; on-peak $0.1910 (8 to 20, Monday to Friday, without six holidays), off-peak $0.0660. 675.54 kWh a month, 45 % on-peak.
// The customer charge is not printed; $14.00 a month is inferred: it gives all eight printed figures.
public class RiverFallsTimeOfDayTests
{
    private const double Use = 675.54;

    private static readonly RatePlan Standard = Plans.Of("""
        customerCharges:
          - { name: Customer charge, amount: 14.00, per: month }
        energyCharges:
          - { name: Energy, pricePerKwh: 0.1110 }
        rounding: { each: bill, mode: halfUp }
        """);

    private static readonly RatePlan TimeOfDay = Plans.Of("""
        timeZone: America/Chicago
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }
        holidays: []
        periods: [on-peak, off-peak]
        windows:
          - { period: on-peak, dayTypes: [weekday], from: 08:00, to: 20:00 }
        defaultPeriod: off-peak
        customerCharges:
          - { name: Customer charge, amount: 14.00, per: month }
        energyCharges:
          - { name: On-peak, periods: [on-peak], pricePerKwh: 0.1910 }
          - { name: Off-peak, periods: [off-peak], pricePerKwh: 0.0660 }
        rounding: { each: bill, mode: halfUp }
        """);

    [Fact]
    public void Month_NothingShifted_TimeOfDayCosts7Dollars60More()
    {
        var standard = Biller.Bill(Standard, Plans.OneMonth(Use)).Total;
        var timeOfDay = Biller.Bill(TimeOfDay, Month(0.45 * Use)).Total;

        Assert.Equal(88.98m, standard);
        Assert.Equal(96.58m, timeOfDay);
        Assert.Equal(-7.60m, standard - timeOfDay);
    }

    // The page says 10 % of on-peak use; only 10 % of all use gives the figures that it prints.
    [Fact]
    public void Month_TenPercentOfAllUseShifted_Saves84Cents()
    {
        var shifted = Biller.Bill(TimeOfDay, Month((0.45 - 0.10) * Use)).Total;

        Assert.Equal(88.14m, shifted);
        Assert.Equal(0.84m, Biller.Bill(Standard, Plans.OneMonth(Use)).Total - shifted);
    }

    // September 2020 begins on a Tuesday: its first 9 o'clock is on-peak, its first 21 o'clock is not.
    private static MeteredSeries Month(double onPeak) =>
        Plans.WithUse(Plans.Midnight("America/Chicago", 2020, 9, 1), 30 * 24, (9, onPeak), (21, Use - onPeak));
}
