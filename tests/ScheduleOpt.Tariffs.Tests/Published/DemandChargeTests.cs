using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

public class DemandChargeTests
{
    // Ameren Missouri, "Rate options FAQs", undated (about 2023), ameren.com/missouri/company/rate-options/faqs: highest clock hour from 6 to 22, every day;
    // $3.37 per kW from October to May; 5 kW in November: $16.85. The higher use at 23 o'clock is ours: it must not count.
    [Fact]
    public void AmerenNovember_5KwInTheWindow_16Dollars85()
    {
        var plan = Plans.Of("""
            timeZone: America/Chicago
            periods: [day, night]
            windows:
              - { period: day, from: 06:00, to: 22:00 }
            defaultPeriod: night
            energyCharges:
              - { name: Energy, pricePerKwh: 0 }
            demandCharges:
              - { name: Demand, pricePerKw: 3.37, averagingMinutes: 60, periods: [day] }
            """);
        var series = Plans.WithUse(Plans.Midnight("America/Chicago", 2025, 11, 1), (30 * 24) + 1, (21, 5), (23, 9), (100, 4));

        Assert.Equal(16.85m, Biller.Bill(plan, series).TotalOf(BillPart.DemandCharge));
    }

    // Los Alamos County, "What is Residential Demand?", rates no sooner than July 2026: $1.00 per kW of the highest single hour; 6 kW: $6.00.
    // In quarter hours, so that the hour is averaged: 4 x 1.5 kWh in one clock hour; 2.9 kWh in two quarters that straddle another hour don't reach it.
    [Fact]
    public void LosAlamos_HighestClockHour6Kw_6Dollars()
    {
        var plan = Plans.Of("""
            energyCharges:
              - { name: Energy, pricePerKwh: 0 }
            demandCharges:
              - { name: Demand, pricePerKw: 1.00, averagingMinutes: 60 }
            """);
        var kwh = new double[31 * 96];
        Array.Fill(kwh, 1.5, 40, 4);
        kwh[83] = kwh[84] = 2.9;
        var series = MeteredSeries.FromKilowattHours(Instant.FromUtc(2026, 7, 1, 0, 0), Duration.FromMinutes(15), kwh);

        Assert.Equal(6.00m, Biller.Bill(plan, series).TotalOf(BillPart.DemandCharge));
        Assert.Empty(Biller.Bill(plan, series).Warnings);
        Assert.Single(Biller.Bill(plan, Plans.Even(Instant.FromUtc(2026, 7, 1, 0, 0), Duration.FromHours(2), 12, 12)).Warnings);
    }

    // National Renewable Energy Laboratory, REopt.jl, test/runtests.jl (commit 029db01dc17ddfc726b3fc5bb7fb72b8541cff0e, 2026-01-04), no_techs.json:
    // $0.10/kWh, $10 per kW and month, 10,000 kWh a year, flat: energy 1,000.00, demand 136.99. The year's sums are rounded once.
    [Fact]
    public void FlatYear_10000Kwh_EnergyAndDemand()
    {
        var plan = Plans.Of("""
            energyCharges:
              - { name: Energy, pricePerKwh: 0.10 }
            demandCharges:
              - { name: Demand, pricePerKw: 10, averagingMinutes: 60 }
            """) with
        {
            Rounding = Charges.Rounding.None,
        };

        var bill = Biller.Bill(plan, Plans.Even(Instant.FromUtc(2017, 1, 1, 0, 0), Duration.FromHours(1), 8760, 10_000));

        Assert.Equal(1000.00m, decimal.Round(bill.TotalOf(BillPart.EnergyCharge), 2));
        Assert.Equal(136.99m, decimal.Round(bill.TotalOf(BillPart.DemandCharge), 2));
    }
}
