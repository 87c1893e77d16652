using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// National Renewable Energy Laboratory, ssc simulation core (BSD-3), test/ssc_test/cmod_utilityrate5_test.cpp, commit
// e97a19f8e035b6c8845690ee23c01b598c36d550 (2025-06-04), github.com/NREL/ssc, Test_Residential_TOU_Rates: year $771.8, tolerance 0.1.
// Another engine's figure, not a utility's bill. Load: Data/home_hourly_8760.csv (6,019.90 kWh; licence beside it). 1 January is a Monday (2018 is such
// a year), no clock changes, no holidays: hence UTC.
public class NationalLaboratoryResidentialTests
{
    private static readonly RatePlan Plan = Plans.Of("""
        seasons:
          - { name: summer, ranges: [ { from: 05-01, to: 10-31 } ] }
          - { name: winter, ranges: [ { from: 11-01, to: 04-30 } ] }
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }
        holidays: []
        periods: [base, midday, evening]
        windows:
          - { period: midday, seasons: [winter], dayTypes: [weekday], from: 10:00, to: 15:00 }
          - { period: evening, dayTypes: [weekday], from: 15:00, to: 20:00 }
        defaultPeriod: base
        energyCharges:
          - { name: Base, periods: [base], pricePerKwh: 0.10 }
          - { name: Winter midday, periods: [midday], pricePerKwh: 0.05 }
          - { name: Winter evening, periods: [evening], seasons: [winter], pricePerKwh: 0.20 }
          - { name: Summer evening, periods: [evening], seasons: [summer], pricePerKwh: 0.25 }
        """) with
    {
        Rounding = Charges.Rounding.None,
    };

    [Fact]
    public void Year_HourlyLoad_IsThePublishedBill()
    {
        var total = Biller.Bill(Plan, Load(2018)).Total;

        Assert.InRange(total, 771.7m, 771.9m);
        // Ours, so that a slip inside the published tolerance is seen too.
        Assert.Equal(771.776m, decimal.Round(total, 3));
    }

    [Fact]
    public void Year_HourlyLoad_EnergyByPrice()
    {
        var bill = Biller.Bill(Plan, Load(2018), readingDates: []);

        Assert.Equal([4425.98m, 238.02m, 433.94m, 921.95m], bill.Periods.Single().Lines.Select(l => decimal.Round(l.Quantity, 2)));
    }

    // 2019 begins on a Tuesday: a slip of one weekday leaves the published tolerance.
    [Fact]
    public void Year_BeginningOnAnotherWeekday_IsAnotherBill() => Assert.NotInRange(Biller.Bill(Plan, Load(2019)).Total, 771.7m, 771.9m);

    private static MeteredSeries Load(int year) =>
        MeteredSeries.FromKilowattHours(Instant.FromUtc(year, 1, 1, 0, 0), Duration.FromHours(1), PublishedData.Kw("home_hourly_8760.csv"));
}
