using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Schedules;

// Schedules of the kinds that utilities of the United States publish. Rules common practice, prices ours; every figure is worked by hand beside it.
public class AmericanSchedulesTests
{
    // Baseline of 10 kWh a day, prices by per cent over baseline: to 100 %, to 400 %, beyond. Read after 29 and 33 days: 290, 1,160 and 330, 1,320 kWh.
    // 29 days, 1,300 kWh: 290 x 0.25 = 72.50; 870 x 0.32 = 278.40; 140 x 0.40 = 56.00. 33 days: 330 x 0.25 = 82.50; 970 x 0.32 = 310.40. Customer charge 0.50 a day.
    [Fact]
    public void BaselineTiers_29And33Days_LimitsFollowTheDays()
    {
        var plan = Plans.Of("""
            timeZone: America/Los_Angeles
            allowances: [ { name: baseline, amounts: [ { kwh: 10 } ] } ]
            customerCharges: [ { name: Customer charge, amount: 0.50, per: day } ]
            energyCharges:
              - name: Energy
                limitPer: day
                allowance: baseline
                blocks: [ { upToAllowance: 1, pricePerKwh: 0.25 }, { upToAllowance: 4, pricePerKwh: 0.32 }, { pricePerKwh: 0.40 } ]
            """);
        var start = Plans.Midnight("America/Los_Angeles", 2026, 4, 2);
        var use = Plans.WithUse(start, 62 * 24, (5, 1300), (40 * 24, 1300));

        var bill = Biller.Bill(plan, use, [new(2026, 5, 1)]);

        Assert.Equal([29m, 33m], bill.Periods.Select(p => p.Days));
        Assert.Equal([14.50m, 72.50m, 278.40m, 56.00m], bill.Periods[0].Lines.Select(l => l.Amount));
        Assert.Equal([16.50m, 82.50m, 310.40m], bill.Periods[1].Lines.Select(l => l.Amount));
    }

    // 80 % of the highest summer kW of the last 11 months, at least 5 kW. July 20 kW, January 6: 16 kW x 4.00 = 64.00. The June after, July is 11 months ago: still 16.
    [Theory]
    [InlineData(1, "64.00")]
    [InlineData(6, "64.00")]
    [InlineData(7, "24.00")]
    public void SummerRatchet_80PercentOf11Months_BillsTheSummerInWinter(int month, string expected)
    {
        var plan = Plans.Of("""
            seasons: [ { name: summer, ranges: [ { from: 06-01, to: 09-30 } ] }, { name: winter, ranges: [ { from: 10-01, to: 05-31 } ] } ]
            dayTypes: [ { name: day, days: [monday, tuesday, wednesday, thursday, friday, saturday, sunday] } ]
            holidays: []
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges:
              - { name: Summer peak, seasons: [summer], pricePerKw: 0, averagingMinutes: 15 }
              - { name: Demand, pricePerKw: 4.00, averagingMinutes: 15, minimumKw: 5, ratchet: { percent: 80, months: 11, of: Summer peak } }
            """);
        var start = Instant.FromUtc(2025, 7, 1, 0, 0);
        var kwh = new double[(int)(Instant.FromUtc(2026, 8, 1, 0, 0) - start).TotalMinutes / 15];
        Array.Fill(kwh, 6.0 / 4);
        kwh[50] = 20.0 / 4;

        var bill = Biller.Bill(plan, MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(15), kwh));

        Assert.Equal(decimal.Parse(expected, null), bill.Periods.Single(p => p.Start == Instant.FromUtc(2026, month, 1, 0, 0)).Lines.Single(l => l.Charge == "Demand").Amount);
    }

    // The minimum counts the customer charge and the energy, not the fuel adjustment: 8.00 + 40 x 0.06 = 10.40, 1.60 missing to 12.00; fuel 40 x 0.03 = 1.20.
    // Franchise fee 3 % of all of it (13.20): 0.396 -> 0.40. Sales tax 6 % on that and on the fee (13.60): 0.816 -> 0.82. Total 14.42.
    [Fact]
    public void MinimumBill_WithoutFuel_ThenFeeThenTaxOnTheFee()
    {
        var plan = Plans.Of("""
            customerCharges: [ { name: Customer charge, amount: 8.00, per: month } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.06 } ]
            adjustments: [ { name: Fuel, pricePerKwh: 0.03 } ]
            minimumBill: { amount: 12.00, per: month, counts: [customerCharge, energyCharge] }
            taxes:
              - { name: Franchise fee, percent: 3, on: { parts: [customerCharge, energyCharge, adjustment, minimumBill] } }
              - { name: Sales tax, percent: 6, on: { parts: [customerCharge, energyCharge, adjustment, minimumBill], taxes: [Franchise fee] } }
            """);

        var bill = Biller.Bill(plan, Plans.OneMonth(40));

        Assert.Equal([8.00m, 2.40m, 1.20m, 1.60m, 0.40m, 0.82m], bill.Periods.Single().Lines.Select(l => l.Amount));
        Assert.Equal(14.42m, bill.Total);
    }

    // The minimum counts the customer charge, the energy and one rider of two: 6.00 + 50 x 0.08 + 50 x 0.01 = 10.50; 4.50 missing to 15.00. Fuel 50 x 0.03 = 1.50 stays outside.
    [Fact]
    public void MinimumBill_CountsOneRiderOfTwo()
    {
        var plan = Plans.Of("""
            customerCharges: [ { name: Customer charge, amount: 6.00, per: month } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.08 } ]
            adjustments: [ { name: Fuel, pricePerKwh: 0.03 }, { name: Transmission, pricePerKwh: 0.01 } ]
            minimumBill: { amount: 15.00, per: month, counts: [customerCharge, energyCharge], charges: [Transmission] }
            """);

        var bill = Biller.Bill(plan, Plans.OneMonth(50));

        Assert.Equal([6.00m, 4.00m, 1.50m, 0.50m, 4.50m], bill.Periods.Single().Lines.Select(l => l.Amount));
    }

    // Net metering with a bank in kWh, settled each March at 0.03: January 300 in, 400 out: bank 100. February 250 in, 200 out: bank 50. March 100 in, 350 out: bank 300,
    // paid out 9.00. April starts with an empty bank: 60 in, 0 out: 60 x 0.12 = 7.20.
    [Fact]
    public void NetMetering_TrueUpInMarch_PaysTheSurplusOnce()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0.12 } ]
            export: { kind: netMetering, bankBy: pool, payOutPerKwh: 0.03, settlementMonth: 3 }
            """);
        var start = Instant.FromUtc(2026, 1, 1, 0, 0);
        int[] days = [0, 31, 59, 90];
        MeteredSeries Series(int hour, params double[] kwh) => Plans.WithUse(start, 120 * 24, [.. kwh.Select((k, i) => ((days[i] * 24) + hour, k))]);

        var bill = Biller.Bill(plan, Series(30, 300, 250, 100, 60), input: new() { Export = Series(40, 400, 200, 350, 0) });

        Assert.Equal([0m, 0, -9.00m, 7.20m], bill.Periods.Select(p => p.Total));
        Assert.Empty(bill.State.BankMicroKwh);
    }

    // 4 July 2027 is a Sunday, observed on Monday the 5th: off-peak then. Saturday holidays stay: 25 December 2027.
    // 10 kWh at 17:00 on 2, 5 and 6 July (Friday, Monday, Tuesday): 20 x 0.40 + 10 x 0.10 = 9.00.
    [Fact]
    public void Holiday_OnASunday_IsOffPeakOnMonday()
    {
        var plan = Plans.Of("""
            timeZone: America/New_York
            dayTypes: [ { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }, { name: weekend, days: [saturday, sunday] } ]
            holidays: [ { name: Independence Day, rule: fixedDate, date: 07-04, dayType: weekend, saturdayMovesTo: none, sundayMovesTo: monday } ]
            periods: [on-peak, off-peak]
            windows: [ { period: on-peak, dayTypes: [weekday], from: 16:00, to: 21:00 } ]
            defaultPeriod: off-peak
            energyCharges: [ { name: On-peak, periods: [on-peak], pricePerKwh: 0.40 }, { name: Off-peak, periods: [off-peak], pricePerKwh: 0.10 } ]
            """);
        var use = Plans.WithUse(Plans.Midnight("America/New_York", 2027, 7, 1), 31 * 24, (24 + 17, 10), ((4 * 24) + 17, 10), ((5 * 24) + 17, 10));

        Assert.Equal(9.00m, Biller.Bill(plan, use).Total);
    }

    // Prices rise on 15 March: 14 days before, 17 from then on. Even use of 310 kWh over 31 days: 140 x 0.10 = 14.00 and 170 x 0.11 = 18.70. The customer charge rises with
    // it: 31.00 and 62.00 a month, by days of the month: 14/31 x 31.00 = 14.00 and 17/31 x 62.00 = 34.00.
    [Fact]
    public void PriceChange_InsideAPeriod_IsProratedByDays()
    {
        var plan = Plans.Of("""
            customerCharges:
              - { name: Old charge, amount: 31.00, per: month, until: 2026-03-14 }
              - { name: New charge, amount: 62.00, per: month, from: 2026-03-15 }
            energyCharges:
              - { name: Old price, until: 2026-03-14, pricePerKwh: 0.10 }
              - { name: New price, from: 2026-03-15, pricePerKwh: 0.11 }
            proration: { month: daysInMonth }
            """);

        var bill = Biller.Bill(plan, Plans.Even(Instant.FromUtc(2026, 3, 1, 0, 0), Duration.FromDays(1), 31, 310));

        Assert.Equal([14.00m, 34.00m, 14.00m, 18.70m], bill.Periods.Single().Lines.Select(l => l.Amount));
    }

    // Sliding half hours of 5-minute readings: 1 kWh in each of six readings from 10:10 to 10:40 is 12 kW for half an hour, which aligned half hours see as 8 kW at most.
    [Theory]
    [InlineData("sliding: true", 12)]
    [InlineData("sliding: false", 8)]
    public void Demand_HalfHoursOfFiveMinuteReadings_SlideOrNot(string sliding, int kw)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, pricePerKw: 1, averagingMinutes: 30, {{sliding}} } ]
            """);
        var kwh = new double[288];
        Array.Fill(kwh, 1, 122, 6);

        Assert.Equal(kw, Biller.Bill(plan, MeteredSeries.FromKilowattHours(Instant.FromUtc(2026, 5, 5, 0, 0), Duration.FromMinutes(5), kwh)).Total);
    }
}
