using NodaTime;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Tests.Schedules;

// Schedules of the kinds that are usual in Britain, the European Union and Australia. Rules common practice, prices ours; every figure is worked by hand beside it.
public class SchedulesAbroadTests
{
    // Britain: 7 hours of night by the winter clock (00:30 to 07:30), a standing charge in pence per day, VAT of 5 % on everything, the bill rounded once.
    // 1 to 30 June 2026: 100 kWh at 07:00 summer time (06:00 by the meter's clock: night); 200 kWh at 08:00 (07:00 by the meter's: night for half of the hour); 50 kWh at
    // 09:00. 200 x 0.0912 = 18.24; 150 x 0.3047 = 45.705; 30 days x 0.4873 = 14.619. Sum 78.564; VAT 3.9282; 82.4922 -> 82.49.
    [Fact]
    public void Britain_NightByWinterClockStandingChargeAndVat()
    {
        var plan = Plans.Of("""
            timeZone: Europe/London
            clock: standard
            periods: [night, day]
            windows: [ { period: night, from: 00:30, to: 07:30 } ]
            defaultPeriod: day
            customerCharges: [ { name: Standing charge, amount: 0.4873, per: day } ]
            energyCharges: [ { name: Night, periods: [night], pricePerKwh: 0.0912 }, { name: Day, periods: [day], pricePerKwh: 0.3047 } ]
            taxes: [ { name: VAT, percent: 5, on: { parts: [customerCharge, energyCharge] } } ]
            rounding: { each: bill, mode: halfUp }
            """);
        var use = Plans.WithUse(Plans.Midnight("Europe/London", 2026, 6, 1), 30 * 24, (7, 100), (8, 200), (9, 50));

        var bill = Biller.Bill(plan, use, readingDates: []);

        Assert.Equal([14.619m, 18.24m, 45.705m, 3.9282m, -0.0022m], bill.Periods.Single().Lines.Select(l => l.Amount));
        Assert.Equal(82.49m, bill.Total);
    }

    // Spain: power contracted for two periods (4.6 kW each) in EUR per kW and year by days / 365, three periods of energy, an excise of 5.11269632 % on both, rent of the
    // meter per day, VAT of 21 % on all. 31 days of May: 4.6 x 28.15 / 365 x 31 = 10.9978 -> 11.00; 4.6 x 3.00 / 365 x 31 = 1.1721 -> 1.17; 20 x 0.20 = 4.00,
    // 30 x 0.15 = 4.50, 50 x 0.10 = 5.00. Excise on 25.67: 1.3124 -> 1.31; rent 31 x 0.0266 = 0.8246 -> 0.82; VAT on 27.80: 5.838 -> 5.84. Total 33.64.
    [Fact]
    public void Spain_ContractedPowerThreePeriodsExciseAndVat()
    {
        var plan = Plans.Of("""
            timeZone: Europe/Madrid
            dayTypes: [ { name: working, days: [monday, tuesday, wednesday, thursday, friday] }, { name: free, days: [saturday, sunday] } ]
            holidays: [ { name: Fiesta del Trabajo, rule: fixedDate, date: 05-01, dayType: free, saturdayMovesTo: none, sundayMovesTo: none } ]
            periods: [punta, llano, valle]
            windows:
              - { period: valle, dayTypes: [free], from: 00:00, to: 24:00 }
              - { period: valle, dayTypes: [working], from: 00:00, to: 08:00 }
              - { period: punta, dayTypes: [working], from: 10:00, to: 14:00 }
              - { period: punta, dayTypes: [working], from: 18:00, to: 22:00 }
            defaultPeriod: llano
            serviceKw: 4.6
            customerCharges:
              - { name: Potencia punta, amount: 0.0771232876712329, per: day, perServiceKw: true }
              - { name: Potencia valle, amount: 0.0082191780821918, per: day, perServiceKw: true }
              - { name: Alquiler del contador, amount: 0.0266, per: day }
            energyCharges:
              - { name: Punta, periods: [punta], pricePerKwh: 0.20 }
              - { name: Llano, periods: [llano], pricePerKwh: 0.15 }
              - { name: Valle, periods: [valle], pricePerKwh: 0.10 }
            taxes:
              - { name: Impuesto, percent: 5.11269632, on: { parts: [energyCharge], charges: [Potencia punta, Potencia valle] } }
              - { name: IVA, percent: 21, on: { parts: [customerCharge, energyCharge], taxes: [Impuesto] } }
            """);
        // 4 May 2026 is a Monday: 10:00 punta, 14:00 llano; 1 May is the holiday, a Friday: valle at 10:00.
        var use = Plans.WithUse(Plans.Midnight("Europe/Madrid", 2026, 5, 1), 31 * 24, (10, 50), ((3 * 24) + 10, 20), ((3 * 24) + 14, 30));

        var bill = Biller.Bill(plan, use);

        Assert.Equal([11.00m, 1.17m, 0.82m, 4.00m, 4.50m, 5.00m, 1.31m, 5.84m], bill.Periods.Single().Lines.Select(l => l.Amount));
        Assert.Equal(33.64m, bill.Total);
    }

    // France: days of three colours, called the day before; each runs from 06:00 to 06:00, dear by day and cheaper from 22:00. A red 20 January 2026:
    // 10 kWh at 07:00 x 0.70; 10 kWh at 23:00 x 0.15; 10 kWh at 05:00 on the 21st, still red, x 0.15; 10 kWh at 07:00 on the 21st, blue, x 0.16. 7.00 + 3.00 + 1.60.
    [Fact]
    public void France_RedDayFromSixToSix_WithItsOwnNight()
    {
        var plan = Plans.Of("""
            timeZone: Europe/Paris
            periods: [blue day, blue night, red day, red night]
            windows: [ { period: blue night, from: 22:00, to: 06:00 } ]
            defaultPeriod: blue day
            events:
              - { name: red days, period: red day, past: [ { from: 2026-01-20T06:00, to: 2026-01-20T22:00 } ] }
              - { name: red nights, period: red night, past: [ { from: 2026-01-20T22:00, to: 2026-01-21T06:00 } ] }
            energyCharges:
              - { name: Blue day, periods: [blue day], pricePerKwh: 0.16 }
              - { name: Blue night, periods: [blue night], pricePerKwh: 0.13 }
              - { name: Red day, periods: [red day], pricePerKwh: 0.70 }
              - { name: Red night, periods: [red night], pricePerKwh: 0.15 }
            """);
        var day = 19 * 24;
        var use = Plans.WithUse(Plans.Midnight("Europe/Paris", 2026, 1, 1), 31 * 24, (day + 7, 10), (day + 23, 10), (day + 29, 10), (day + 31, 10));

        var bill = Biller.Bill(plan, use);

        Assert.Equal([1.60m, 7.00m, 3.00m], bill.Periods.Single().Lines.Select(l => l.Amount));
    }

    // Sweden: the mean of the three highest hours of the month, each of another day, x 45.00 per kW; 8, 7 and 6 kW on three days, and a second hour of 7.5 on the first: 7 kW.
    [Fact]
    public void Sweden_MeanOfTheThreeHighestDays()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Power, pricePerKw: 45.00, averagingMinutes: 60, measure: meanOfDailyHighest, days: 3 } ]
            """);

        Assert.Equal(315.00m, Biller.Bill(plan, Plans.WithUse(Instant.FromUtc(2026, 1, 1, 0, 0), 31 * 24, (0, 8), (2, 7.5), (24, 7), (48, 6), (72, 5))).Total);
    }

    // Australia: a quarter (1 April to 30 June, 91 days), supply 1.10 a day, 15 kWh a day of a first block pooled over the quarter (1,365 kWh), export above the price of
    // import, demand from 16 to 21 on working days per kW and day, GST of 10 %. 1,500 kWh of it 5 at 17:00 in one hour: 1,365 x 0.30 = 409.50; 135 x 0.34 = 45.90;
    // 91 x 1.10 = 100.10; 5 kW x 91 x 0.05 = 22.75; GST on 578.25: 57.825 -> 57.83; export 200 x 0.40 = 80.00. Total 556.08.
    [Fact]
    public void Australia_QuarterWithDailyBlockDemandAndDearExport()
    {
        var plan = Plans.Of("""
            timeZone: Australia/Sydney
            dayTypes: [ { name: working, days: [monday, tuesday, wednesday, thursday, friday] }, { name: other, days: [saturday, sunday] } ]
            holidays: []
            calendars: [ { name: demand, periods: [evening, rest], windows: [ { period: evening, dayTypes: [working], from: 16:00, to: 21:00 } ], defaultPeriod: rest } ]
            customerCharges: [ { name: Supply, amount: 1.10, per: day } ]
            energyCharges: [ { name: Energy, limitPer: day, blocks: [ { upToKwh: 15, pricePerKwh: 0.30 }, { pricePerKwh: 0.34 } ] } ]
            demandCharges: [ { name: Demand, calendar: demand, periods: [evening], pricePerKw: 0.05, per: day, averagingMinutes: 30 } ]
            export: { kind: netBilling, prices: [ { name: Feed-in, pricePerKwh: 0.40 } ] }
            taxes: [ { name: GST, percent: 10, on: { parts: [customerCharge, energyCharge, demandCharge] } } ]
            """);
        var start = Plans.Midnight("Australia/Sydney", 2026, 4, 1);
        // 1 April 2026 is a Wednesday. Summer time ends on 5 April: the quarter has an hour more.
        const int Hours = (91 * 24) + 1;
        var use = Plans.WithUse(start, Hours, (17, 5), (22, 1495));
        var roof = Plans.WithUse(start, Hours, (12, 200));

        var bill = Biller.Bill(plan, use, [new(2026, 7, 1)], new() { Export = roof });

        Assert.Equal([100.10m, 409.50m, 45.90m, 22.75m, -80.00m, 57.83m], Assert.Single(bill.Periods).Lines.Select(l => l.Amount));
        Assert.Equal(556.08m, bill.Total);
    }

    // Australia: the first 8 kWh a day are fed in at 0.12, the rest at 0.04. 30 days: 240 kWh of a pool; 300 kWh: 28.80 + 2.40 = 31.20 off. Given: 240 kWh exactly.
    [Theory]
    [InlineData(300, "-31.20", "0.04", null, 60)]
    [InlineData(240, "-28.80", "0.04", null, 0)]
    [InlineData(239, "-28.68", "0.12", 1, null)]
    public void Australia_FeedInInBlocks_FirstKwhOfTheDayAreDearer(double exported, string expected, string next, int? more, int? less)
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0.30 } ]
            export: { kind: netBilling, prices: [ { name: Feed-in, limitPer: day, blocks: [ { upToKwh: 8, pricePerKwh: 0.12 }, { pricePerKwh: 0.04 } ] } ] }
            """);
        var start = Instant.FromUtc(2026, 6, 1, 0, 0);
        var (use, roof) = (Plans.WithUse(start, 30 * 24), Plans.WithUse(start, 30 * 24, (12, exported)));

        var prices = PriceScheduleBuilder.Build(plan, start, start + Duration.FromDays(30), use, input: new() { Export = roof });

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, use, input: new() { Export = roof }).Total);
        Assert.Equal(decimal.Parse(next, null), Assert.Single(prices.Spans).ExportPerKwh);
        var edge = prices.Edges.Single(e => e.Name == "Feed-in");
        Assert.Equal<(decimal?, decimal?)>((more, less), (edge.More, edge.Less));
    }

    // The Netherlands: prices by the hour, below zero at noon. The bank of export credit goes below zero, which the next bill charges.
    // January: 10 kWh out at -0.05: -0.50 banked. February: that 0.50 is charged, and its own 10 kWh at 0.20 are banked.
    [Fact]
    public void NegativePrices_ExportBankBelowZero_IsHandedOn()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0.30 } ]
            export: { kind: netBilling, creditUse: bankNextBill, prices: [ { name: Spot, hourlyPrice: { series: spot, missing: previous } } ] }
            """);
        Instant january = Instant.FromUtc(2026, 1, 1, 0, 0), february = Instant.FromUtc(2026, 2, 1, 0, 0);
        BillInput Given(MeteredSeries roof, BillState state) => new()
        {
            Export = roof,
            State = state,
            Prices = new Dictionary<string, PriceSeries> { ["spot"] = new(january, Duration.FromDays(1), [-0.05m, .. Enumerable.Repeat((decimal?)null, 30), 0.20m]) },
        };

        var first = Biller.Bill(plan, Plans.WithUse(january, 31 * 24), input: Given(Plans.WithUse(january, 31 * 24, (700, 10)), BillState.Empty));
        var second = Biller.Bill(plan, Plans.WithUse(february, 28 * 24), input: Given(Plans.WithUse(february, 28 * 24, (600, 10)), first.State));

        Assert.Equal((0m, -0.50m), (first.Total, first.State.CreditBank));
        Assert.Equal((0.50m, 2.00m), (second.Total, second.State.CreditBank));
    }

    // A critical-peak rebate without a stated baseline: the five highest of the ten latest like days at the same hours. Ten weekdays of 4 kWh and 6 kWh in turn: the
    // highest five are 6. 2.5 kWh in the event: 3.5 x 1.25 = 4.375 -> 4.38 off.
    [Fact]
    public void CriticalPeakRebate_FiveHighestOfTen_PaysTheDifference()
    {
        var plan = Plans.Of("""
            timeZone: America/Denver
            dayTypes: [ { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }, { name: weekend, days: [saturday, sunday] } ]
            holidays: []
            events: [ { name: peak } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            rebates: [ { name: Rebate, event: peak, pricePerKwh: 1.25, baseline: { days: 10, highest: 5 } } ]
            """);
        // 20 August 2026 is a Thursday; the ten weekdays before it begin on 6 August.
        var uses = Enumerable.Range(0, 14).Select(i => ((i + 5) * 24 + 16, i % 2 == 0 ? 4.0 : 6.0));
        var use = Plans.WithUse(Plans.Midnight("America/Denver", 2026, 8, 1), 31 * 24, [.. uses, ((19 * 24) + 16, 2.5)]);
        var events = new Dictionary<string, IReadOnlyList<CalledEvent>> { ["peak"] = [new(new(2026, 8, 20, 16, 0), new(2026, 8, 20, 18, 0))] };

        Assert.Equal(-4.38m, Biller.Bill(plan, use, input: new() { Events = events }).Total);
    }
}
