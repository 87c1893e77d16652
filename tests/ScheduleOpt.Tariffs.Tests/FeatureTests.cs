using NodaTime;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Tests;

// Bills worked by hand, one feature each. January 2026 in UTC unless a test says otherwise.
public class FeatureTests
{
    private const string TwoPeriods = """
        periods: [on, off]
        windows: [ { period: on, from: 12:00, to: 20:00 } ]
        defaultPeriod: off

        """;

    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);

    // 60 kWh off first, then 80 on, then 60 off; the first 100 in order of time: 60 off and 40 on; the rest 40 on and 60 off.
    [Fact]
    public void SharedBlocks_InTimeOrder_FillAsUseComes()
    {
        var plan = Plans.Of(TwoPeriods + """
            energyCharges:
              - name: Energy
                limitPer: month
                fill: inTimeOrder
                blocks: [ { upToKwh: 100, pricePerKwh: { on: 0.30, off: 0.10 } }, { pricePerKwh: { on: 0.40, off: 0.20 } } ]
            """);

        Assert.Equal([12m, 6m, 16m, 12m], Amounts(plan, (0, 60), (13, 80), (30, 60)));
    }

    [Theory]
    [InlineData(400, "40")]
    [InlineData(400.001, "80.0002")]
    public void Blocks_WholeUse_RepricesEverythingPastTheLimit(double kwh, string expected)
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, wholeUse: true, limitPer: billingPeriod, blocks: [ { upToKwh: 400, pricePerKwh: 0.10 }, { pricePerKwh: 0.20 } ] } ]
            """) with { Rounding = Charges.Rounding.None };

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.OneMonth(kwh)).Total);
    }

    // 31 days: 100 per 30 days are 103.333333, or 103 in whole kWh; 10 a day are 310; as it is, 100.
    [Theory]
    [InlineData("limitPer: thirtyDays", 100, "103.333333")]
    [InlineData("limitPer: thirtyDays, limitInWholeKwh: true", 100, "103")]
    [InlineData("limitPer: day", 10, "310")]
    [InlineData("limitPer: billingPeriod", 100, "100")]
    public void Blocks_LimitUnits_ScaleAsStated(string unit, int limit, string first)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, {{unit}}, blocks: [ { upToKwh: {{limit}}, pricePerKwh: 1 }, { pricePerKwh: 2 } ] } ]
            """);

        Assert.Equal(decimal.Parse(first, null), Biller.Bill(plan, Plans.OneMonth(500)).Periods[0].Lines[0].Quantity);
    }

    // Valley 10 kWh a day, coast 8; electric heating adds a charge; default coast and gas. 31 days.
    [Theory]
    [InlineData(null, null, 248, "0")]
    [InlineData("valley", "electric", 310, "5.00")]
    public void Options_Chosen_PickAllowanceAndCharges(string? territory, string? heating, int baseline, string charge)
    {
        var plan = Plans.Of("""
            options:
              - { name: territory, choices: [coast, valley], default: coast }
              - { name: heating, choices: [gas, electric], default: gas }
            allowances: [ { name: baseline, amounts: [ { kwh: 8, when: { territory: [coast] } }, { kwh: 10, when: { territory: [valley] } } ] } ]
            customerCharges: [ { name: Heating, amount: 5, per: month, when: { heating: [electric] } } ]
            energyCharges: [ { name: Energy, limitPer: day, allowance: baseline, blocks: [ { upToAllowance: 1, pricePerKwh: 0.1 }, { upToAllowance: 1.5, pricePerKwh: 0.2 }, { pricePerKwh: 0.3 } ] } ]
            """);
        var choices = new Dictionary<string, string>();
        if (territory is not null)
        {
            choices = new() { ["territory"] = territory, ["heating"] = heating! };
        }

        var bill = Biller.Bill(plan, Plans.OneMonth(1000), input: new() { Choices = choices });

        Assert.Equal([baseline, baseline / 2m, 1000 - (baseline * 1.5m)], bill.Periods[0].Lines.Where(l => l.Part == BillPart.EnergyCharge).Select(l => l.Quantity));
        Assert.Equal(decimal.Parse(charge, null), bill.TotalOf(BillPart.CustomerCharge));
        Assert.Throws<ArgumentException>(() => Biller.Bill(plan, Plans.OneMonth(1), input: new() { Choices = new Dictionary<string, string> { ["territory"] = "hills" } }));
    }

    // Read on 10 January and 10 February: the bill that ends on 10 February is a February bill by its reading date, a January one by its first day.
    [Theory]
    [InlineData("readingDate", "10.00")]
    [InlineData("firstDay", "20.00")]
    [InlineData("lastDay", "10.00")]
    public void BillingSeason_ByTheBillsMonth_DecidesThePrice(string day, string expected)
    {
        var plan = Plans.Of($$"""
            billingSeasons: [ { name: cheap, months: [2] }, { name: dear, months: [1, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12] } ]
            billingMonth: {{day}}
            energyCharges:
              - { name: Cheap, billingSeasons: [cheap], pricePerKwh: 0.10 }
              - { name: Dear, billingSeasons: [dear], pricePerKwh: 0.20 }
            """);
        var series = Plans.WithUse(Instant.FromUtc(2026, 1, 10, 0, 0), 31 * 24, (0, 100));

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, series, []).Total);
    }

    // 23:30 to 06:30 by standard time is 00:30 to 07:30 of the summer clock: 07:00 on 1 July belongs to it.
    [Theory]
    [InlineData("standard", "1.00")]
    [InlineData("legal", "10.00")]
    public void Clock_Standard_KeepsTheWinterHours(string clock, string expected)
    {
        var plan = Plans.Of($$"""
            timeZone: Europe/London
            clock: {{clock}}
            periods: [night, day]
            windows: [ { period: night, from: 23:30, to: 06:30 } ]
            defaultPeriod: day
            energyCharges:
              - { name: Night, periods: [night], pricePerKwh: 1 }
              - { name: Day, periods: [day], pricePerKwh: 10 }
            """);
        var kwh = new double[96];
        kwh[28] = 1;

        Assert.Equal(
            decimal.Parse(expected, null),
            Biller.Bill(plan, MeteredSeries.FromKilowattHours(Plans.Midnight("Europe/London", 2026, 7, 1), Duration.FromMinutes(15), kwh)).Total);
    }

    // Supply 100 x 1.05 x 0.10, delivery 100 x 0.02; the rider is 10 % of delivery; the tax 5 % of the customer charge and the rider alone.
    [Fact]
    public void Layers_RidersAndBases_TakeWhatTheyName()
    {
        var plan = Plans.Of("""
            customerCharges: [ { name: Meter, amount: 12, per: year }, { name: Service, amount: 2, per: billingPeriod, perServiceKw: true } ]
            serviceKw: 3
            energyCharges:
              - { name: Supply, layer: supply, lossFactor: 1.05, pricePerKwh: 0.10 }
              - { name: Delivery, layer: delivery, pricePerKwh: 0.02 }
            taxes:
              - { name: Rider, as: adjustment, percent: 10, on: { layers: [delivery] } }
              - { name: Tax, percent: 5, on: { charges: [Meter], taxes: [Rider] } }
              - { name: Gross, percent: 2.5, grossUp: true, on: { charges: [Supply] } }
            """);

        Assert.Equal([1m, 6m, 10.50m, 2m, 0.20m, 0.06m, 0.27m], Amounts(plan, (0, 100)));
        Assert.Equal(14m, Biller.Bill(plan, Plans.OneMonth(100), input: new() { ServiceKw = 7 }).Periods[0].Lines[1].Amount);
        Assert.Equal(BillPart.Adjustment, Biller.Bill(plan, Plans.OneMonth(100)).Periods[0].Lines[4].Part);
    }

    // Trap: 2.5 % printed, 2.5641 % charged (Florida, "about 2.56 percent").
    [Fact]
    public void GrossUp_TwoAndAHalfPercent_IsTheChargedPercentage() =>
        Assert.Equal(2.564102564103m, Biller.Bill(Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 1 } ]
            taxes: [ { name: Tax, percent: 2.5, grossUp: true, on: { parts: [energyCharge] } } ]
            """), Plans.OneMonth(100)).Periods[0].Lines[1].Quantity);

    // The lesser of 5 % and 0.0032 a kWh (seiec.com's shape); 3 % not above 1.75 (wrwwlc.com's); on from 17 January: 15 of 31 days.
    [Theory]
    [InlineData("orPerKwh: 0.0032", 0.05, "2.50")]
    [InlineData("orPerKwh: 0.0032", 0.20, "3.20")]
    [InlineData("atMost: { amount: 1.75, per: month }", 0.02, "1.00")]
    [InlineData("atMost: { amount: 1.75, per: month }", 0.20, "1.75")]
    [InlineData("from: 2026-01-17", 0.20, "4.84")]
    [InlineData("until: 2026-01-16", 0.20, "5.16")]
    public void Percentage_WithLimits_IsTheLesser(string limit, double price, string expected)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, pricePerKwh: {{price}} } ]
            taxes: [ { name: Fee, percent: 5, {{limit}}, on: { parts: [energyCharge] } } ]
            """);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.OneMonth(1000)).TotalOf(BillPart.Tax));
    }

    // 10.00 of energy and 1.00 of tax: a minimum of 15 before taxes is taxed (15 x 1.1), after taxes it is not.
    [Theory]
    [InlineData("counts: [energyCharge]", "16.00")]
    [InlineData("stage: afterTaxes, counts: [energyCharge, tax]", "15.00")]
    [InlineData("stage: afterTaxes, counts: [energyCharge]", "16.00")]
    public void MinimumBill_Stage_DecidesWhatItCounts(string rule, string expected)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            minimumBill: { amount: 15, per: billingPeriod, {{rule}} }
            taxes: [ { name: Tax, percent: 10, on: { parts: [energyCharge] } } ]
            """);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.OneMonth(100)).Total);
    }

    // 31 days. Per kWh only on-peak use: 40 x 0.01.
    [Fact]
    public void Credits_EachUnit_AreTakenOff()
    {
        var plan = Plans.Of(TwoPeriods + """
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            credits:
              - { name: A, amount: 0.01, per: kwh, periods: [on] }
              - { name: B, amount: 0.10, per: day }
              - { name: C, amount: 12, per: year }
              - { name: D, amount: 2, per: month, useBand: { upToKwh: 99 } }
            """);

        Assert.Equal([-0.40m, -3.10m, -1.00m], Amounts(plan, (13, 40), (0, 60)));
    }

    // January: 100 imported, 130 exported, 30 banked. February: 50 imported, 30 from the bank. March: 10 exported and the 10 paid out at 0.05.
    [Fact]
    public void NetMetering_Bank_CarriesAndSettles()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            export: { kind: netMetering, settlementMonth: 3, payOutPerKwh: 0.05 }
            """);
        int february = 31 * 24, march = 59 * 24;
        var import = Plans.WithUse(Start, 90 * 24, (0, 100), (february + 5, 50));
        var export = Plans.WithUse(Start, 90 * 24, (12, 130), (march + 12, 10));

        var bill = Biller.Bill(plan, import, input: new() { Export = export });

        Assert.Equal([0m, 2.00m, -0.50m], bill.Periods.Select(p => p.Total));
        Assert.Empty(bill.State.BankMicroKwh);
    }

    // On-peak export does not pay for off-peak use: 40 kWh on-peak are banked, 60 off-peak are billed.
    [Fact]
    public void NetMetering_ByPeriod_KeepsPeriodsApart()
    {
        var plan = Plans.Of(TwoPeriods + """
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            export: { kind: netMetering, bankBy: period }
            """);
        var bill = Biller.Bill(plan, Plans.WithUse(Start, 31 * 24, (0, 60)), input: new() { Export = Plans.WithUse(Start, 31 * 24, (13, 40)) });

        Assert.Equal(6.00m, bill.Total);
        Assert.Equal(new Dictionary<string, long> { ["on"] = 40_000_000 }, bill.State.BankMicroKwh);
    }

    // Energy 10.00 and a customer charge of 5.00; 20.00 earned. Offset energy only: 5.00 to pay, 10.00 banked, half of it paid out where January settles.
    [Theory]
    [InlineData("thisBill", "", "-5.00", 0)]
    [InlineData("bankThisBill", "offsets: [energyCharge]", "5.00", 10)]
    [InlineData("bankThisBill", "offsets: [energyCharge], settlementMonth: 1, payOutPercent: 50", "0.00", 0)]
    [InlineData("bankNextBill", "offsets: [energyCharge]", "15.00", 20)]
    public void NetBilling_CreditUse_DecidesWhatIsPaid(string use, string rule, string total, int banked)
    {
        var plan = Plans.Of($$"""
            customerCharges: [ { name: Basic, amount: 5, per: month } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            export: { kind: netBilling, creditUse: {{use}}, {{(use == "thisBill" ? "" : rule + ", ")}}prices: [ { name: Export, pricePerKwh: 0.20 } ] }
            """);
        var bill = Biller.Bill(plan, Plans.OneMonth(100), input: new() { Export = Plans.WithUse(Start, 31 * 24, (12, 100)) });

        Assert.Equal(decimal.Parse(total, null), bill.Total);
        Assert.Equal(banked, bill.State.CreditBank);
    }

    // Quarter hours 4, -3, 0, 0: netted over the hour 1 kWh of import; by the interval 4 and 3; both registers at once in one interval: 2 and 1, or netted 1.
    [Theory]
    [InlineData("nettingMinutes: 60, ", "1.00")]
    [InlineData("nettingMinutes: 15, ", "1.00")]
    [InlineData("", "1.00")]
    [InlineData("nettingMinutes: 0, ", "0.80")]
    public void NettingInterval_Length_MovesTheBill(string netting, string expected)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, pricePerKwh: 1 } ]
            export: { kind: netBilling, {{netting}}prices: [ { name: Export, pricePerKwh: 1.2 } ] }
            """);
        MeteredSeries Series(params double[] kwh) => MeteredSeries.FromKilowattHours(Start, Duration.FromMinutes(15), kwh);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Series(2, 0, 0, 0), input: new() { Export = Series(1, 0, 0, 0) }).Total);
        var apart = Biller.Bill(plan, Series(4, 0, 0, 0), input: new() { Export = Series(0, 3, 0, 0) }).Total;
        Assert.Equal(netting.Contains("60", StringComparison.Ordinal) ? 1.00m : 0.40m, apart);
    }

    // Prices 0.10, none, -0.05 by the hour, 1 kWh each: 2 x price + 0.01, not below 0. The missing one by each rule.
    [Theory]
    [InlineData("missing: previous", "0.42")]
    [InlineData("missing: price, missingPrice: 0.2", "0.62")]
    [InlineData("missing: previous, atMost: 0.15", "0.30")]
    public void HourlyPrice_MissingHour_FollowsTheRule(string rule, string expected)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, hourlyPrice: { series: spot, multiplier: 2, adder: 0.01, atLeast: 0, {{rule}} } } ]
            """);
        var prices = new PriceSeries(Start, Duration.FromHours(1), [0.10m, null, -0.05m]);
        var input = new BillInput { Prices = new Dictionary<string, PriceSeries> { ["spot"] = prices } };

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.WithUse(Start, 3, (0, 1), (1, 1), (2, 1)), input: input).Total);
    }

    [Fact]
    public void HourlyPrice_GapWithoutARule_IsRefusedByName()
    {
        var plan = Plans.Of("energyCharges: [ { name: Energy, hourlyPrice: { series: spot, missing: refuse } } ]");
        var input = new BillInput { Prices = new Dictionary<string, PriceSeries> { ["spot"] = new(Start, Duration.FromHours(1), [0.1m, null]) } };

        Assert.Equal("/prices/spot", Assert.Single(BillInputCheck.Faults(plan, Plans.WithUse(Start, 2), input)).Path);
        Assert.Empty(BillInputCheck.Faults(plan, Plans.WithUse(Start, 1), input));
        Assert.Throws<ArgumentException>(() => Biller.Bill(plan, Plans.WithUse(Start, 2)));
    }

    // Quarter hours 0, 1, 2, 1, 0...: the clock's half hours hold at most 3 kWh (6 kW), sliding ones too; shifted by a quarter 1+2 straddle a half hour.
    [Theory]
    [InlineData("", "4.00")]
    [InlineData("sliding: true, ", "6.00")]
    [InlineData("sliding: true, minimumKw: 7, ", "7.00")]
    [InlineData("per: day, ", "1.00")]
    [InlineData("kwDecimals: 0, kwRounding: up, sliding: true, ", "6.00")]
    public void Demand_Averages_AlignedOrSliding(string rule, string expected)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, {{rule}}averagingMinutes: 30, pricePerKw: 1 } ]
            """);
        double[] kwh = [0, 1, 2, 0, 0, 0, 0, 0, .. new double[16]];

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, MeteredSeries.FromKilowattHours(Start, Duration.FromMinutes(15), kwh)).Total);
    }

    // Days' highest hours 4, 2 and 0.5: mean 2.166667; of the two highest 3; rounded down to whole kW 2, up 3.
    [Theory]
    [InlineData("", "2.166667")]
    [InlineData("days: 2, ", "3")]
    [InlineData("kwDecimals: 0, kwRounding: down, ", "2")]
    [InlineData("kwDecimals: 0, kwRounding: up, ", "3")]
    [InlineData("kwDecimals: 1, ", "2.2")]
    public void Demand_MeanOfDailyHighest_AndItsRounding(string rule, string expected)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, {{rule}}measure: meanOfDailyHighest, averagingMinutes: 60, pricePerKw: 1 } ]
            """);
        var series = Plans.WithUse(Start, 72, (5, 4), (7, 1), (30, 2), (50, 0.5));

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, series).Periods[0].Lines[^1].Quantity);
    }

    // Free up to 5 kW, 2.00 to 12, 3.00 above: 14 kW cost 14 + 6.
    [Fact]
    public void Demand_Blocks_FreeFirstKw()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, averagingMinutes: 60, blocks: [ { upToKw: 5, pricePerKw: 0 }, { upToKw: 12, pricePerKw: 2 }, { pricePerKw: 3 } ] } ]
            """);

        Assert.Equal([14m, 6m], Amounts(plan, (0, 14)));
    }

    // An event from 18:00 to 20:00 takes the hours of both periods; where two definitions meet the first one wins; an adder rides on a calendar of its own.
    [Fact]
    public void Events_OverThePeriods_FirstDefinitionWins()
    {
        var plan = Plans.Of("""
            periods: [on, off, first, second]
            windows: [ { period: on, from: 12:00, to: 19:00 } ]
            defaultPeriod: off
            calendars: [ { name: adder, periods: [plain, called], defaultPeriod: plain } ]
            events:
              - { name: a, period: first, past: [ { from: 2026-01-05T18:00, to: 2026-01-05T20:00 } ] }
              - { name: b, period: second, past: [ { from: 2026-01-05T17:00, to: 2026-01-05T21:00 } ] }
              - { name: c, calendar: adder, period: called, past: [ { from: 2026-01-05T16:00, to: 2026-01-05T17:00 } ] }
            energyCharges:
              - { name: On, periods: [on], pricePerKwh: 0.1 }
              - { name: Off, periods: [off], pricePerKwh: 1 }
              - { name: First, periods: [first], pricePerKwh: 10 }
              - { name: Second, periods: [second], pricePerKwh: 100 }
            adjustments: [ { name: Adder, calendar: adder, periods: [called], pricePerKwh: 0.5 } ]
            """);
        var day = 4 * 24;
        (int, double)[] use = [.. Enumerable.Range(15, 7).Select(h => (day + h, 1.0))];

        Assert.Equal([0.2m, 1m, 20m, 200m, 0.5m], Amounts(plan, use));
    }

    [Fact]
    public void Household_ByMetering_BillsHouseAndCar()
    {
        var whole = Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0.20 } ]");
        var car = Plans.Of("customerCharges: [ { name: Meter, amount: 3, per: month } ]\nenergyCharges: [ { name: Car, pricePerKwh: 0.10 } ]") with { Metering = Metering.Submeter };
        var (house, use) = (Plans.OneMonth(100), Plans.OneMonth(50));

        Assert.Equal(30m, Biller.Household(whole, null, house, use).Total);
        var apart = Biller.Household(car, whole, house, use);
        Assert.Equal((20m, 8m, 28m), (apart.House.Total, apart.Car!.Total, apart.Total));
        Assert.Throws<ArgumentException>(() => Biller.Household(car, null, house, use));
    }

    // Two months at once: 61 days are two whole months; limits and charges double.
    [Fact]
    public void Proration_WholeMonths_CountsBimonthlyBillsTwice()
    {
        var plan = Plans.Of("""
            customerCharges: [ { name: Basic, amount: 10, per: month } ]
            energyCharges: [ { name: Energy, limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.10 }, { pricePerKwh: 0.20 } ] } ]
            proration: { month: wholeMonths }
            """);

        Assert.Equal(20m + 20m + 10m, Biller.Bill(plan, Plans.WithUse(Start, 61 * 24, (0, 250)), []).Total);
        Assert.Equal(10m, Biller.Bill(plan, Plans.WithUse(Start, 5 * 24), []).Total);
    }

    [Fact]
    public void Line_OfAStatement_SaysItsRuleAndPlace()
    {
        var line = Biller.Bill(Plans.Of("energyCharges:\n  - { name: Energy, pricePerKwh: 0.20 }"), Plans.OneMonth(5)).Periods[0].Lines.Single();

        Assert.Equal(("/energyCharges/0", "energy x price"), (line.Place!.Path, line.Rule));
        Assert.Equal(8, line.Place.Line);
    }

    private static decimal[] Amounts(RatePlan plan, params (int, double)[] use) =>
        [.. Biller.Bill(plan, Plans.WithUse(Start, 31 * 24, use)).Periods[0].Lines.Select(l => l.Amount).Where(a => a != 0)];
}
