using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Tests;

// What a price per kWh does not say, worked by hand: blocks, bands, percentages, demand, with the distance to where the price changes.
public class PriceTermTests
{
    private const string Hours = """
        periods: [peak, base]
        windows: [ { period: peak, from: 12:00, to: 20:00 } ]
        defaultPeriod: base

        """;

    private static readonly Instant Start = NodaTime.Instant.FromUtc(2026, 1, 1, 0, 0);
    private static readonly Interval January = new(Start, Start + Duration.FromDays(31));

    // 120 kWh at peak: 20 into the second block of 100 to 250. Prices with 10 % tax. Two days are asked for: two peaks.
    [Fact]
    public void Blocks_OfTwoDays_AreATermWithItsHours()
    {
        var plan = Plans.Of(Hours + """
            energyCharges:
              - { name: Peak, periods: [peak], limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.10 }, { upToKwh: 250, pricePerKwh: 0.20 }, { pricePerKwh: 0.40 } ] }
              - { name: Base, periods: [base], pricePerKwh: 0.05 }
            taxes: [ { name: Tax, percent: 10, on: { parts: [energyCharge] } } ]
            """);
        var second = Start + Duration.FromDays(1);
        var prices = PriceScheduleBuilder.Build(plan, second, second + Duration.FromDays(2), Plans.WithUse(Start, 31 * 24, (12, 120), (0, 30)));

        var term = prices.Terms.OfType<BlockTerm>().Single();
        Assert.Equal(("Peak", January, true, 120m, 1, false), (term.Name, term.BillingPeriod, term.IsConvex, term.UsedKwh, term.ReachedBlock, term.WholeUse));
        Assert.Equal([new(100, 0.11m), new(150, 0.22m), new(null, 0.44m)], term.Blocks);
        Assert.Equal([Of(36, 44), Of(60, 68)], term.Hours);
        Assert.Equal(new PriceEdge(EdgeKind.Block, "Peak", Start, 130, 20, "kWh", false), Assert.Single(prices.Edges));
        Assert.Equal(["Peak is priced at block 2: 120 kWh are expected in the billing period from 2026-01-01; after 130 kWh more the price changes."], prices.Warnings);
        Assert.Equal([0.055m, 0.22m, 0.055m, 0.22m, 0.055m], prices.Spans.Select(s => s.ImportPerKwh));
        Assert.Equal(["base", "peak", "base", "peak", "base"], prices.Spans.Select(s => s.Period));
    }

    // At a limit the next kWh lies in the next block; the last block has no end, and the first nothing before it.
    [Theory]
    [InlineData(0, 0, 100.0, null, "block 1: 0 kWh are expected in the billing period from 2026-01-01; after 100 kWh more the price changes.")]
    [InlineData(100, 1, 150.0, 0.0, "block 2: 100 kWh are expected in the billing period from 2026-01-01; after 150 kWh more the price changes.")]
    [InlineData(260, 2, null, 10.0, "block 3: 260 kWh are expected in the billing period from 2026-01-01.")]
    public void Blocks_AtTheirEnds_HaveOneEdge(double used, int reached, double? more, double? less, string warning)
    {
        var plan = Plans.Of("energyCharges: [ { name: Energy, limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: 0.10 }, { upToKwh: 250, pricePerKwh: 0.20 }, { pricePerKwh: 0.40 } ] } ]");
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), usedSoFar: Energy.FromKilowattHours(used));

        var edge = Assert.Single(prices.Edges);
        Assert.Equal(((decimal?)more, (decimal?)less), (edge.More, edge.Less));
        Assert.Equal(reached, ((BlockTerm)prices.Terms.Single()).ReachedBlock);
        Assert.Equal($"Energy is priced at {warning}", Assert.Single(prices.Warnings));
    }

    // What is behind the reached block doesn't matter; equal prices don't fall.
    [Theory]
    [InlineData("0.4", "0.1", "0.2", 50, "", false)]
    [InlineData("0.4", "0.1", "0.2", 150, "", true)]
    [InlineData("0.1", "0.1", "0.1", 50, "", true)]
    [InlineData("0.1", "0.2", "0.1", 50, "", false)]
    [InlineData("0.1", "0.2", "0.3", 50, "wholeUse: true, ", false)]
    public void Blocks_ThatNeverFallFromHere_AreConvex(string first, string second, string third, double used, string rule, bool isConvex)
    {
        var plan = Plans.Of(
            $"energyCharges: [ {{ name: Energy, {rule}limitPer: month, blocks: [ {{ upToKwh: 100, pricePerKwh: {first} }}, {{ upToKwh: 250, pricePerKwh: {second} }}, {{ pricePerKwh: {third} }} ] }} ]");
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), usedSoFar: Energy.FromKilowattHours(used));

        Assert.Equal(isConvex, prices.Terms.Single().IsConvex);
        Assert.Equal(rule.Length > 0, prices.Edges.Single().IsJump);
    }

    // 120 of 320 kWh at peak: each block at 3/8 of its peak and 5/8 of its base price. Without use: halves.
    [Theory]
    [InlineData(120, 200, "0.175", "0.31875")]
    [InlineData(0, 0, "0.20", "0.375")]
    [InlineData(0, 200, "0.10", "0.15")]
    public void Blocks_WithPricesByPeriod_AreMeans(double peak, double rest, string first, string second)
    {
        var plan = Plans.Of(Hours + """
            energyCharges: [ { name: Energy, limitPer: month, blocks: [ { upToKwh: 100, pricePerKwh: { peak: 0.30, base: 0.10 } }, { pricePerKwh: { peak: 0.60, base: 0.15 } } ] } ]
            """);
        var term = (BlockTerm)PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), Plans.WithUse(Start, 31 * 24, (12, peak), (0, rest))).Terms.Single();

        Assert.Equal([decimal.Parse(first, null), decimal.Parse(second, null)], term.Blocks.Select(b => b.PricePerKwh));
        Assert.False(term.IsConvex);
    }

    // A credit for each kWh at peak, only above 50 kWh; both with 10 % tax: 0.33 - 0.022.
    [Theory]
    [InlineData(50, "0.33")]
    [InlineData(60, "0.308")]
    public void Credit_ForEachKwh_IsInThePriceWhileItHolds(double used, string peak)
    {
        var plan = Plans.Of(Hours + """
            energyCharges: [ { name: Energy, pricePerKwh: 0.30 } ]
            credits: [ { name: Peak credit, periods: [peak], amount: 0.02, per: kwh, useBand: { overKwh: 50 } } ]
            taxes: [ { name: Tax, percent: 10, on: { parts: [energyCharge, credit] } } ]
            """);
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), Plans.WithUse(Start, 31 * 24, (12, used)));

        Assert.Equal(decimal.Parse(peak, null), prices.At(Start + Duration.FromHours(12)).ImportPerKwh);
        Assert.Equal(0.33m, prices.At(Start).ImportPerKwh);
        Assert.Contains("Test has amounts that depend on the use of the billing period, which are not in the price per kWh.", prices.Warnings);
        // What the bill has more inside the band: all its peak kWh at 0.022.
        var term = Assert.IsType<BandTerm>(prices.Terms[0]);
        Assert.Equal((50m, null, (decimal)used, -(decimal)used * 0.022m), (term.OverKwh, term.UpToKwh, term.UsedKwh, term.Amount));
    }

    // 2.00 a kW of 9 kW with 10 % tax, between 50 and 120 kWh.
    [Theory]
    [InlineData(40, 10.0, null)]
    [InlineData(50, 0.0, null)]
    [InlineData(100, 20.0, 50.0)]
    [InlineData(120, 0.0, 70.0)]
    [InlineData(130, null, 10.0)]
    public void CustomerCharge_InABand_IsAJumpAtEachEnd(double used, double? more, double? less)
    {
        var plan = Plans.Of("""
            customerCharges: [ { name: Relief, amount: 2, per: month, perServiceKw: true, useBand: { overKwh: 50, upToKwh: 120 } }, { name: Basic, amount: 1, per: month } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.30 } ]
            taxes: [ { name: Tax, percent: 10, on: { parts: [customerCharge] } } ]
            """);
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), Plans.OneMonth(used), input: new() { ServiceKw = 9 });

        Assert.Equal(new BandTerm("Relief", January, 50, 120, (decimal)used, 19.8m), prices.Terms[0]);
        Assert.Equal(new PriceEdge(EdgeKind.ConditionalAmount, "Relief", Start, (decimal?)more, (decimal?)less, "kWh", true), Assert.Single(prices.Edges));
        Assert.Contains("Test has amounts that depend on the use of the billing period, which are not in the price per kWh.", prices.Warnings);
        decimal Bill(double kwh) => Biller.Bill(plan with { Rounding = Rounding.None }, Plans.OneMonth(kwh), input: new() { ServiceKw = 9 }).Total;
        Assert.Equal(19.8m, Bill(120) - Bill(120.000001) + 0.0000003m);
    }

    // 3 % of 20.00 is 0.60; not more than 0.0032 a kWh: 0.32. Then 0.28 lie between them, at 0.2032 x 3 % + 0.0032 for each kWh.
    [Theory]
    [InlineData("", "0.32")]
    [InlineData("atMost: { amount: 0.10, per: billingPeriod }, ", "0.10")]
    [InlineData("atMost: { amount: 0.50, per: billingPeriod }, ", "0.32")]
    public void Percentage_WithCaps_IsATermWithTheLower(string rule, string cap)
    {
        var plan = Plans.Of($$"""
            energyCharges: [ { name: Energy, pricePerKwh: 0.20 } ]
            taxes: [ { name: Fee, percent: 3, orPerKwh: 0.0032, {{rule}}on: { parts: [energyCharge] } }, { name: Tax, percent: 1, on: { taxes: [Fee] } } ]
            """);
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), Plans.OneMonth(100));
        var lower = decimal.Parse(cap, null);
        // Below the lower cap for each kWh a kWh more costs that much more, with 1 % on it; at a fixed cap nothing.
        var price = 0.20m + (lower == 0.32m ? 0.0032m * 1.01m : 0);

        Assert.Equal(price, prices.Spans.Single().ImportPerKwh);
        Assert.Equal([new PercentageTerm("Fee", January, 3, 20, lower), new PercentageTerm("Tax", January, 1, lower, null)], prices.Terms);
        var edge = Assert.Single(prices.Edges);
        Assert.Equal((EdgeKind.PercentageCap, "Fee", Start, "kWh", false), (edge.Kind, edge.Name, edge.BillingPeriodStart, edge.Unit, edge.IsJump));
        Assert.Equal((0.60m - lower) / ((price * 0.03m) + 0.0032m), edge.More!.Value, 12);
        Assert.Equal(edge.More, edge.Less);
    }

    // 4 kW now, 10 kW in November: a ratchet of 60 % bills 6. A kW costs 10.00 up to 5 kW and 12.00 beyond, a half of each for 15 of 30 days.
    [Fact]
    public void Demand_UnderARatchet_IsATermWithItsFloor()
    {
        var plan = Plans.Of(Hours + """
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            demandCharges: [ { name: Demand, periods: [peak], averagingMinutes: 30, sliding: true, per: month, minimumKw: 3, from: 2026-01-17, ratchet: { percent: 60, months: 11 }, blocks: [ { upToKw: 5, pricePerKw: 10 }, { pricePerKw: 12 } ] } ]
            proration: { month: thirtyDays }
            """);
        var state = new BillState { Peaks = [new("Demand", 2025, 11, 10), new("Demand", 2025, 1, 99), new("Other", 2025, 11, 99)] };
        var use = MeteredSeries.FromKilowattHours(Start, Duration.FromMinutes(30), [.. Enumerable.Range(0, 31 * 48).Select(i => i == (20 * 48) + 30 ? 2.0 : i == (22 * 48) + 30 ? 1.5 : i == 30 ? 9 : 0)]);
        var from = Start + Duration.FromDays(16) - Duration.FromHours(5);
        var prices = PriceScheduleBuilder.Build(plan, from, from + Duration.FromDays(1), use, input: new() { State = state });

        var term = Assert.IsType<DemandTerm>(prices.Terms.Single());
        Assert.Equal(("Demand", January, true, true, Duration.FromMinutes(30)), (term.Name, term.BillingPeriod, term.IsConvex, term.Sliding, term.Averaging));
        Assert.Equal((4m, 6m, 6m, 60m), (term.MeasuredKw, term.FloorKw, term.BilledKw, term.RatchetPercent));
        Assert.Equal([new(5, 5), new(null, 6)], term.Blocks);
        Assert.Equal([Of((16 * 24) + 12, (16 * 24) + 19)], term.Hours);
        // From 4 kW nothing changes for 2 kW more; from the second highest on, 1 kW less, the bill no longer falls for another reason.
        Assert.Equal(new PriceEdge(EdgeKind.NewPeak, "Demand", Start, 2, 1, "kW", false), prices.Edges.Single());
        Assert.Equal(["Test has a demand charge, which is not in the price per kWh."], prices.Warnings);
    }

    [Theory]
    [InlineData("blocks: [ { upToKw: 5, pricePerKw: 10 }, { pricePerKw: 9 } ]", false)]
    [InlineData("blocks: [ { upToKw: 5, pricePerKw: 10 }, { pricePerKw: 10 } ]", true)]
    [InlineData("pricePerKw: 10, measure: meanOfDailyHighest", false)]
    [InlineData("pricePerKw: 10, kwDecimals: 3", false)]
    public void Demand_ThatMayFallOrIsRounded_IsNotConvex(string rule, bool isConvex)
    {
        var plan = Plans.Of($"energyCharges: [ {{ name: Energy, pricePerKwh: 0.10 }} ]\ndemandCharges: [ {{ name: Demand, averagingMinutes: 60, {rule} }} ]");
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), Plans.OneMonth(4));

        Assert.Equal(isConvex, prices.Terms.Single().IsConvex);
        Assert.Equal(rule.Contains("kwDecimals"), prices.Edges.Single().IsJump);
    }

    // The price series changes by the hour, the export price with it; losses and taxes count. Export 0.05, 0.06, ... at 1.05 and 10 %.
    [Fact]
    public void Export_UnderNetBilling_IsPricedByTheHour()
    {
        var plan = Plans.Of(Hours + """
            energyCharges: [ { name: Energy, lossFactor: 1.02, hourlyPrice: { series: market, adder: 0.10, missing: refuse } } ]
            export:
              kind: netBilling
              creditUse: thisBill
              prices: [ { name: Market, periods: [peak], lossFactor: 1.05, hourlyPrice: { series: market, missing: refuse } }, { name: Bonus, periods: [base], lossFactor: 1.05, pricePerKwh: 0.02 } ]
            taxes: [ { name: Tax, percent: 10, on: { parts: [energyCharge, exportCredit] } } ]
            """);
        var series = new PriceSeries(Start, Duration.FromHours(1), [.. Enumerable.Range(0, 24).Select(h => (decimal?)(0.01m * h))]);
        var prices = PriceScheduleBuilder.Build(plan, Start + Duration.FromMinutes(90), Start + Duration.FromDays(1), input: new() { Prices = new Dictionary<string, PriceSeries> { ["market"] = series } });

        Assert.Equal(Start + Duration.FromMinutes(90), prices.Start);
        Assert.Equal([Start + Duration.FromMinutes(90), .. Enumerable.Range(2, 22).Select(h => Start + Duration.FromHours(h))], prices.Spans.Select(s => s.Start));
        Assert.Equal(Enumerable.Range(1, 23).Select(h => ((0.01m * h) + 0.10m) * 1.02m * 1.1m), prices.Spans.Select(s => s.ImportPerKwh));
        Assert.Equal(Enumerable.Range(1, 23).Select(h => (h is >= 12 and < 20 ? 0.01m * h : 0.02m) * 1.05m * 1.1m), prices.Spans.Select(s => s.ExportPerKwh));
    }

    // The interval nearest to balance: 0.5 kWh of import and 0.7 of export in January; February has its own.
    [Fact]
    public void Export_UnderNetBilling_HasTheNearestBalance()
    {
        var plan = Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]\nexport: { kind: netBilling, creditUse: thisBill, prices: [ { name: Export, pricePerKwh: 0.05 } ] }");
        var import = Plans.WithUse(Start, 59 * 24, (0, 3), (5, 0.5), (800, 0.1));
        var export = Plans.WithUse(Start, 59 * 24, (3, 2), (8, 0.7), (31 * 24, 0.2));
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(59), import, input: new() { Export = export });

        Assert.Equal(
            [
                new PriceEdge(EdgeKind.ZeroNetFlow, "Export", Start, 0.7m, 0.5m, "kWh", false),
                new PriceEdge(EdgeKind.ZeroNetFlow, "Export", Start + Duration.FromDays(31), 0.2m, 0.1m, "kWh", false),
            ],
            prices.Edges);
        Assert.Equal((0.10m, 0.05m), (prices.Spans.Single().ImportPerKwh, prices.Spans.Single().ExportPerKwh));
        Assert.Equal((null, null), (Edge(Plans.OneMonth(0)).More, Edge(Plans.OneMonth(0)).Less));
        PriceEdge Edge(MeteredSeries nothing) => PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), nothing).Edges.Single();
    }

    // 30 kWh at 0.10 are due 3.00. Of a bank of 5.00 then 2.00 are left over, 20 kWh more; of a bank of 2.00, 1.00 is missing, 10 kWh less. What is exported now counts
    // with bankThisBill alone.
    [Theory]
    [InlineData("bankNextBill", 5, 0, 20)]
    [InlineData("bankNextBill", 4, 0, 10)]
    [InlineData("bankNextBill", 2, 0, 10)]
    [InlineData("bankNextBill", 5, 100, 20)]
    [InlineData("bankThisBill", 0, 100, 20)]
    [InlineData("bankThisBill", 3, 0, 0)]
    public void CreditBank_BesideWhatIsDue_HasItsDistance(string use, int bank, int exported, int distance)
    {
        var plan = Plans.Of($"energyCharges: [ {{ name: Energy, pricePerKwh: 0.10 }} ]\nexport: {{ kind: netBilling, creditUse: {use}, offsets: [energyCharge], prices: [ {{ name: Export, pricePerKwh: 0.05 }} ] }}");
        var input = new BillInput { Export = Plans.WithUse(Start, 31 * 24, (1, exported)), State = new() { CreditBank = bank } };
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(1), Plans.OneMonth(30), input: input);

        Assert.Equal(new PriceEdge(EdgeKind.CreditBank, "Export credit", Start, distance, distance, "kWh", false), prices.Edges[1]);
        Assert.Equal(["Test banks export credit: a price counts it in full, though it is used later or paid in part."], prices.Warnings);
    }

    private static Interval Of(int fromHour, int toHour) => new(Start + Duration.FromHours(fromHour), Start + Duration.FromHours(toHour));
}
