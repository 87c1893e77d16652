using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// National Renewable Energy Laboratory, ssc simulation core (BSD-3), test/ssc_test/cmod_utilityrate5_test.cpp, commit
// e97a19f8e035b6c8845690ee23c01b598c36d550 (2025-06-04), github.com/NREL/ssc. Another engine's figures, not a utility's bill. 1 January is a Monday, no
// clock changes, no holidays: hence 2018 in UTC. Series: Data/, with their licence.
public class NationalLaboratoryCommercialTests
{
    // Test_Commercial_Demand_Charges: year $104,614.5, tolerance 0.1. Energy has one calendar, demand another.
    [Fact]
    public void Shop_TimeOfUseAndDemandInBlocks_IsThePublishedYear()
    {
        var plan = Plans.Of("""
            seasons:
              - { name: summer, ranges: [ { from: 05-01, to: 10-31 } ] }
              - { name: winter, ranges: [ { from: 11-01, to: 04-30 } ] }
            dayTypes:
              - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
              - { name: weekend, days: [saturday, sunday] }
            holidays: []
            periods: [peak, off]
            windows: [ { period: peak, dayTypes: [weekday], from: 15:00, to: 20:00 } ]
            defaultPeriod: off
            calendars:
              - { name: demand, periods: [afternoon, rest], windows: [ { period: afternoon, dayTypes: [weekday], from: 15:00, to: 20:00 } ], defaultPeriod: rest }
            customerCharges: [ { name: Fixed, amount: 30, per: month } ]
            energyCharges:
              - { name: Summer peak, seasons: [summer], periods: [peak], pricePerKwh: 0.05 }
              - { name: Summer off-peak, seasons: [summer], periods: [off], pricePerKwh: 0.075 }
              - { name: Winter peak, seasons: [winter], periods: [peak], pricePerKwh: 0.06 }
              - { name: Winter off-peak, seasons: [winter], periods: [off], pricePerKwh: 0.05 }
            demandCharges:
              - { name: Peak, calendar: demand, periods: [afternoon], averagingMinutes: 60, blocks: [ { upToKw: 100, pricePerKw: 20 }, { pricePerKw: 15 } ] }
              - { name: Other, calendar: demand, periods: [rest], averagingMinutes: 60, blocks: [ { upToKw: 100, pricePerKw: 10 }, { pricePerKw: 5 } ] }
            """) with
        {
            Rounding = Charges.Rounding.None,
        };

        var bill = Biller.Bill(plan, Hourly("shop_hourly_8760.csv.gz"));

        Assert.InRange(bill.Total, 104_614.4m, 104_614.6m);
        // Ours.
        Assert.Equal(45_028.11m, decimal.Round(bill.TotalOf(BillPart.EnergyCharge), 2));
        Assert.Equal(59_226.38m, decimal.Round(bill.TotalOf(BillPart.DemandCharge), 2));
        Assert.Equal(360m, bill.TotalOf(BillPart.CustomerCharge));
    }

    // Test_Commercial_kWh_per_kW_charges: July $16,774.68, tolerance 0.01; kWh by block 3,000 / 7,000 / 121,603.13 / 131,603.13 / 120,963.36. The price that the
    // sheet prints on the outer 200 kWh per kW is not charged: inner rows replace it.
    [Fact]
    public void Plant_BlocksInKwhPerKw_IsThePublishedJuly()
    {
        var plan = Plans.Of("""
            customerCharges: [ { name: Fixed, amount: 21, per: month } ]
            energyCharges:
              - name: Energy
                limitPer: billingPeriod
                limitDemand: Demand
                blocks:
                  - { upToKwh: 3000, upToKwhPerKw: 200, pricePerKwh: 0.132655 }
                  - { upToKwh: 10000, upToKwhPerKw: 200, pricePerKwh: 0.120303 }
                  - { upToKwh: 200000, upToKwhPerKw: 200, pricePerKwh: 0.102607 }
                  - { upToKwhPerKw: 200, pricePerKwh: 0.079109 }
                  - { upToKwhPerKw: 400, pricePerKwh: 0.013627 }
                  - { upToKwhPerKw: 600, pricePerKwh: 0.010275 }
                  - { pricePerKwh: 0.00771 }
            demandCharges: [ { name: Demand, pricePerKw: 0, averagingMinutes: 60 } ]
            """) with
        {
            Rounding = Charges.Rounding.None,
        };

        var july = Biller.Bill(plan, Hourly("plant_hourly_8760.csv.gz")).Periods[6];

        Assert.InRange(july.Total, 16_774.67m, 16_774.69m);
        Assert.Equal(
            [3000m, 7000m, 121_603.13m, 131_603.13m, 120_963.36m],
            july.Lines.Where(l => l.Part == BillPart.EnergyCharge).Select(l => decimal.Round(l.Quantity, 2)));
    }

    private static MeteredSeries Hourly(string name) =>
        MeteredSeries.FromKilowattHours(Instant.FromUtc(2018, 1, 1, 0, 0), Duration.FromHours(1), PublishedData.Kw(name));
}
