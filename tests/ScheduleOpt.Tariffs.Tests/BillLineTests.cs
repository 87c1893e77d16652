using NodaTime;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Tests;

// What a reader sees on a bill: quantity, unit, price and rule of each kind of line. Figures by hand for 31 days of January 2026.
public class BillLineTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);

    [Theory]
    [InlineData("month", "", "1", "month", "12", "12", "months by the plan's proration x amount")]
    [InlineData("day", "", "31", "day", "12", "372", "days x amount")]
    [InlineData("year", "", "0.083333333333", "year", "12", "1.00", "months by the plan's proration x amount")]
    [InlineData("billingPeriod", "", "1", "bill", "12", "12", "once in a billing period")]
    [InlineData("month", "perServiceKw: true, ", "1", "month", "54", "54", "months by the plan's proration x amount")]
    public void CustomerCharge_EachUnit_SaysItsRule(string per, string more, string quantity, string unit, string price, string amount, string rule)
    {
        var line = Lines($"customerCharges: [ {{ name: Basic, {more}amount: 12, per: {per} }} ]", new() { ServiceKw = 4.5m }, 0).Single();

        Assert.Equal((BillPart.CustomerCharge, "Basic", unit, rule), (line.Part, line.Description, line.Unit, line.Rule));
        Assert.Equal((Number(quantity), Number(price), Number(amount)), (line.Quantity, line.Price, line.Amount));
    }

    [Theory]
    [InlineData("kwh", "20", "kWh", "-40")]
    [InlineData("day", "31", "day", "-62")]
    [InlineData("year", "0.083333333333", "year", "-0.17")]
    [InlineData("billingPeriod", "1", "bill", "-2")]
    [InlineData("month", "1", "month", "-2")]
    public void Credit_EachUnit_IsTakenOff(string per, string quantity, string unit, string amount)
    {
        var line = Lines($"credits: [ {{ name: Off, amount: 2, per: {per} }} ]", null, 20)[^1];

        Assert.Equal((BillPart.Credit, unit, "taken off"), (line.Part, line.Unit, line.Rule));
        Assert.Equal((Number(quantity), -2m, Number(amount)), (line.Quantity, line.Price, line.Amount));
        var banded = Lines($"credits: [ {{ name: Off, amount: 2, per: {per}, useBand: {{ upToKwh: 20 }} }} ]", null, 20)[^1];
        Assert.Equal((line.Amount, "taken off while the use lies in its band"), (banded.Amount, banded.Rule));
        Assert.Single(Lines($"credits: [ {{ name: Off, amount: 2, per: {per}, useBand: {{ upToKwh: 19 }} }} ]", null, 20));
    }

    [Fact]
    public void MinimumBill_ThatBinds_SaysWhatIsMissing()
    {
        var line = Lines("minimumBill: { amount: 5, per: month, counts: [energyCharge] }", null, 20)[^1];

        Assert.Equal((BillPart.MinimumBill, "Missing to the minimum bill", 1m, "bill", 3m, 3m, "minimum less the parts that count"), Shown(line));
        Assert.Equal("/minimumBill", line.Place!.Path);
        Assert.Single(Lines("minimumBill: { amount: 2, per: month, counts: [energyCharge] }", null, 20));
    }

    // 10 % on 2.00; grossed up 100 x 10 / 90; at most 0.15; not more than 0.004 a kWh.
    [Theory]
    [InlineData("", "10", "%", "0.02", "0.2", "percentage of its base")]
    [InlineData("grossUp: true, ", "11.111111111111", "%", "0.02", "0.22222222222222", "percentage of its base, grossed up")]
    [InlineData("atMost: { amount: 0.15, per: month }, ", "1", "month", "0.15", "0.15", "capped")]
    [InlineData("atMost: { amount: 0.005, per: day }, ", "31", "day", "0.005", "0.155", "capped")]
    [InlineData("atMost: { amount: 0.15, per: billingPeriod }, ", "1", "bill", "0.15", "0.15", "capped")]
    [InlineData("atMost: { amount: 0.2, per: billingPeriod }, ", "10", "%", "0.02", "0.2", "percentage of its base")]
    [InlineData("orPerKwh: 0.004, ", "20", "kWh", "0.004", "0.08", "the lesser of the percentage and an amount per kWh")]
    [InlineData("orPerKwh: 0.01, ", "10", "%", "0.02", "0.2", "percentage of its base")]
    [InlineData("orPerKwh: 0.004, atMost: { amount: 0.05, per: month }, ", "1", "month", "0.05", "0.05", "capped")]
    [InlineData("from: 2026-01-17, ", "10", "%", "0.00967741935484", "0.0967741935484", "percentage of its base")]
    [InlineData("until: 2026-01-16, ", "10", "%", "0.01032258064516", "0.1032258064516", "percentage of its base")]
    [InlineData("from: 2026-01-01, until: 2026-01-31, ", "10", "%", "0.02", "0.2", "percentage of its base")]
    public void Percentage_OfEachKind_SaysItsRule(string more, string quantity, string unit, string price, string amount, string rule)
    {
        foreach (var (kind, part) in new[] { ("tax", BillPart.Tax), ("adjustment", BillPart.Adjustment) })
        {
            var line = Lines($"taxes: [ {{ name: Fee, percent: 10, as: {kind}, {more}on: {{ parts: [energyCharge] }} }} ]\nrounding: {{ each: bill, mode: halfUp, decimals: 4 }}", null, 20)
                .Single(l => l.Description == "Fee");

            Assert.Equal((part, "Fee", Number(quantity), unit, Number(price), Number(amount), rule), Shown(line));
            Assert.True(line.IsPercentage);
            Assert.Equal("/taxes/0", line.Place!.Path);
        }
    }

    [Theory]
    [InlineData("[ { name: Demand, pricePerKw: 3, averagingMinutes: 60 } ]", "highest average over 60 minutes")]
    [InlineData("[ { name: Demand, pricePerKw: 3, averagingMinutes: 30, sliding: true } ]", "highest average over 30 minutes, sliding")]
    [InlineData("[ { name: Demand, pricePerKw: 3, averagingMinutes: 60, measure: meanOfDailyHighest, days: 1 } ]", "mean of the days' highest averages over 60 minutes")]
    [InlineData(
        "[ { name: Demand, pricePerKw: 3, averagingMinutes: 60, minimumKw: 2.5, ratchet: { percent: 60, months: 11 } } ]",
        "highest average over 60 minutes, at least 60 % of earlier demand, at least 2.5 kW")]
    public void Demand_OfEachKind_SaysItsRule(string charges, string rule)
    {
        var line = Lines($"demandCharges: {charges}", null, 20).Single(l => l.Part == BillPart.DemandCharge);

        Assert.Equal((BillPart.DemandCharge, "Demand", 20m, "kW", 3m, 60m, rule), Shown(line));
        Assert.Equal(("Demand", "/demandCharges/0"), (line.Charge, line.Place!.Path));
    }

    // 20 kW: 5 at 1.00, 7 at 2.00, 8 at 3.00; of 12 kW the last block has none.
    [Fact]
    public void Demand_InBlocks_HasALineForEach()
    {
        const string Charges = "demandCharges: [ { name: Demand, averagingMinutes: 60, blocks: [ { upToKw: 5, pricePerKw: 1 }, { upToKw: 12, pricePerKw: 2 }, { pricePerKw: 3 } ] } ]";
        IEnumerable<(string, decimal, decimal)> Blocks(double kw) => Lines(Charges, null, kw).Where(l => l.Part == BillPart.DemandCharge).Select(l => (l.Description, l.Quantity, l.Amount));

        Assert.Equal([("Demand, block 1", 5m, 5m), ("Demand, block 2", 7m, 14m), ("Demand, block 3", 8m, 24m)], Blocks(20));
        Assert.Equal([("Demand, block 1", 5m, 5m), ("Demand, block 2", 7m, 14m)], Blocks(12));
        Assert.All(Lines(Charges, null, 20).Where(l => l.Part == BillPart.DemandCharge), l => Assert.Equal("Demand", l.Charge));
    }

    [Fact]
    public void Rebate_ForAnEvent_SaysItsBaseline()
    {
        var input = new BillInput { Events = new Dictionary<string, IReadOnlyList<CalledEvent>> { ["saving"] = [new(new(2026, 1, 5, 17, 0), new(2026, 1, 5, 19, 0), BaselineKwh: 3, BaselineAdjustmentKwh: 0.5m)] } };
        var line = Lines("events: [ { name: saving } ]\nrebates: [ { name: Rebate, event: saving, pricePerKwh: 2, baseline: { days: 3 } } ]", input, 20)[^1];

        Assert.Equal((BillPart.Credit, "Rebate, 2026-01-05 17:00", 3.5m, "kWh", -2m, -7m, "baseline of 3.5 kWh less use, never negative"), Shown(line));
        Assert.Equal(("Rebate", "/rebates/0"), (line.Charge, line.Place!.Path));
    }

    // 10 kWh at 0.50 earn 5.00; 2.00 are due and used, 3.00 banked; settled at half, with 4.00 from before: 3.50 are paid out.
    [Fact]
    public void ExportCredit_BankedAndPaidOut_SaysSo()
    {
        const string Export = "export: { kind: netBilling, creditUse: bankThisBill, offsets: [energyCharge], settlementMonth: 1, payOutPercent: 50, prices: [ { name: Export, pricePerKwh: 0.50 } ] }";
        var input = new BillInput { Export = Plans.WithUse(Start, 31 * 24, (9, 10)), State = new() { CreditBank = 4 } };
        var lines = Lines(Export, input, 20);

        Assert.Equal((BillPart.ExportCredit, "Export", 10m, "kWh", -0.50m, -5m), (lines[1].Part, lines[1].Description, lines[1].Quantity, lines[1].Unit, lines[1].Price, lines[1].Amount));
        Assert.Equal((BillPart.ExportCredit, "Export credit banked", 1m, "bill", 3m, 3m, "credit earned less credit used"), Shown(lines[2]));
        Assert.Equal((BillPart.ExportCredit, "Export credit paid out", 1m, "bill", -3.5m, -3.5m, "the bank is settled"), Shown(lines[3]));
        Assert.Equal(4, lines.Count);
        Assert.All(lines.Skip(2), l => Assert.Equal("/export", l.Place!.Path));
    }

    [Fact]
    public void BankedEnergy_PaidOut_SaysSo()
    {
        var input = new BillInput { Export = Plans.WithUse(Start, 31 * 24, (9, 50)) };
        var line = Lines("export: { kind: netMetering, payOutPerKwh: 0.04, settlementMonth: 1 }", input, 20).Single();

        Assert.Equal((BillPart.ExportCredit, "Banked energy paid out", 30m, "kWh", -0.04m, -1.20m, "the bank is settled"), Shown(line));
    }

    [Fact]
    public void Total_Rounded_SaysWhatRoundingAdded()
    {
        var bill = Biller.Bill(Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0.1234 } ]\nrounding: { each: bill, mode: halfUp }"), Plans.OneMonth(1));
        var line = bill.Periods[0].Lines[^1];

        Assert.Equal((BillPart.Rounding, "Rounding of the total", 1m, "bill", -0.0034m, -0.0034m, "the total is rounded"), Shown(line));
        Assert.Equal(0.12m, bill.Total);
        Assert.Equal((0.1234m, -0.0034m), (bill.TotalOf(BillPart.EnergyCharge), bill.TotalOf(BillPart.Rounding)));
    }

    // Two months: parts are sums over both, in the order of the bill, and add up.
    [Fact]
    public void Bill_OfTwoMonths_AddsUpByPart()
    {
        var plan = Plans.Of("""
            customerCharges: [ { name: Basic, amount: 10, per: month } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            taxes: [ { name: Tax, percent: 10, on: { parts: [energyCharge] } } ]
            """);
        var bill = Biller.Bill(plan, Plans.WithUse(Start, 59 * 24, (0, 100), (800, 200)));

        Assert.Equal([new(BillPart.CustomerCharge, 20m), new(BillPart.EnergyCharge, 30m), new(BillPart.Tax, 3m)], bill.TotalsByPart());
        Assert.Equal((53m, 30m, 0m), (bill.Total, bill.TotalOf(BillPart.EnergyCharge), bill.TotalOf(BillPart.Credit)));
        Assert.Equal(("test", "USD", 2), (bill.RatePlanId, bill.Currency, bill.Periods.Count));
        Assert.Equal([(31m, 100m), (28m, 200m)], bill.Periods.Select(p => (p.Days, p.EnergyKwh)));
    }

    [Theory]
    [InlineData("blocks: [ { upToKwh: 15, pricePerKwh: 0.1 }, { pricePerKwh: 0.2 } ]", "Energy, block 1|Energy, block 2")]
    [InlineData("fill: inProportion, blocks: [ { upToKwh: 15, pricePerKwh: { a: 0.1, b: 0.2 } }, { pricePerKwh: { a: 0.2, b: 0.3 } } ]", "Energy, block 1, a|Energy, block 2, a")]
    [InlineData("fill: inTimeOrder, blocks: [ { upToKwh: 15, pricePerKwh: { a: 0.1, b: 0.2 } }, { pricePerKwh: { a: 0.2, b: 0.3 } } ]", "Energy, block 1, a|Energy, block 2, a")]
    public void EnergyBlocks_WithUse_HaveALineEach(string blocks, string names)
    {
        var plan = Plans.Of($"periods: [a, b]\ndefaultPeriod: a\nwindows: [ {{ period: b, from: 12:00, to: 13:00 }} ]\nenergyCharges: [ {{ name: Energy, limitPer: month, {blocks} }} ]");
        var lines = Biller.Bill(plan, Plans.OneMonth(20)).Periods[0].Lines;

        Assert.Equal(names, string.Join('|', lines.Select(l => l.Description)));
        Assert.Equal([15m, 5m], lines.Select(l => l.Quantity));
        Assert.All(lines, l => Assert.Equal(("Energy", "kWh", "/energyCharges/0"), (l.Charge, l.Unit, l.Place!.Path)));
        Assert.All(lines, l => Assert.NotEmpty(l.Rule));
    }

    private static (BillPart, string, decimal, string, decimal, decimal, string) Shown(BillLine line) =>
        (line.Part, line.Description, line.Quantity, line.Unit, line.Price, line.Amount, line.Rule);

    private static decimal Number(string text) => decimal.Parse(text, null);

    private static IReadOnlyList<BillLine> Lines(string body, BillInput? input, double kwh) =>
        Biller.Bill(Plans.Of($"energyCharges: [ {{ name: Energy, pricePerKwh: 0.10 }} ]\n{body}"), Plans.OneMonth(kwh), input: input).Periods[0].Lines;
}
