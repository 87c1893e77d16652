using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// What the reader of a bill or of prices must know is said in a sentence, and nothing is said where there is nothing to know.
public class WarningTests
{
    private const string Energy = "energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]\n";
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);

    // A series of January 2026.
    [Theory]
    [InlineData("2026-01-01", "2026-01-31", false)]
    [InlineData("2026-01-02", null, true)]
    [InlineData("2025-01-01", "2026-01-30", true)]
    [InlineData("2025-01-01", null, false)]
    public void Series_OutsideTheEffectiveDates_IsSaid(string from, string? until, bool isSaid)
    {
        var plan = Plans.Of(Energy) with { EffectiveFrom = Date(from), EffectiveUntil = until is null ? null : Date(until) };

        Assert.Equal(
            isSaid ? ["The series runs from 2026-01-01 to 2026-01-31, partly outside the dates on which the rate plan test is effective."] : [],
            Biller.Bill(plan, Plans.OneMonth(1)).Warnings);
        Assert.Equal(
            isSaid ? ["The rate plan test is not effective on all of these dates."] : [],
            PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(31)).Warnings);
    }

    [Theory]
    [InlineData(60, false)]
    [InlineData(30, true)]
    public void Demand_OverShorterTimesThanTheSeries_IsSaid(int minutes, bool isSaid) =>
        Assert.Equal(
            isSaid ? ["Demand is for averages over 30 minutes; the series has longer intervals, so the true demand may be higher."] : [],
            Biller.Bill(Plans.Of($"{Energy}demandCharges: [ {{ name: Demand, pricePerKw: 1, averagingMinutes: {minutes} }} ]"), Plans.OneMonth(1)).Warnings);

    [Theory]
    [InlineData("", true, "Test says nothing about exported energy: it is not netted and earns nothing.")]
    [InlineData("", false, null)]
    [InlineData("export: { kind: netMetering }", true, null)]
    [InlineData("export: { kind: netMetering, nettingMinutes: 15 }", true, "Test nets over 15 minutes; the series has longer intervals, which are netted as they are.")]
    [InlineData("export: { kind: netMetering, nettingMinutes: 60 }", true, null)]
    [InlineData("export: { kind: netMetering, nettingMinutes: 0 }", true, null)]
    public void Export_ThatThePlanTakesOtherwise_IsSaid(string rule, bool isExported, string? sentence) =>
        Assert.Equal(
            sentence is null ? [] : [sentence],
            Biller.Bill(Plans.Of(Energy + rule), Plans.OneMonth(1), input: new() { Export = isExported ? Plans.OneMonth(2) : null }).Warnings);

    [Fact]
    public void Rebate_WithoutABaseline_IsSaid() =>
        Assert.Equal(
            ["Rebate, 2026-01-01 17:00: no day before it gives a baseline, so there is no rebate."],
            Biller.Bill(
                Plans.Of(Energy + "events: [ { name: saving, past: [ { from: 2026-01-01T17:00, to: 2026-01-01T18:00 } ] } ]\nrebates: [ { name: Rebate, event: saving, pricePerKwh: 1, baseline: { days: 3 } } ]"),
                Plans.OneMonth(1)).Warnings);

    [Theory]
    [InlineData("", null)]
    [InlineData("demandCharges: [ { name: Demand, pricePerKw: 1, averagingMinutes: 60 } ]", "has a demand charge, which is not in the price per kWh.")]
    [InlineData("demandCharges: [ { name: Demand, pricePerKw: 0, averagingMinutes: 60 } ]", null)]
    [InlineData("demandCharges: [ { name: Demand, averagingMinutes: 60, blocks: [ { upToKw: 5, pricePerKw: 0 }, { pricePerKw: 1 } ] } ]", "has a demand charge, which is not in the price per kWh.")]
    [InlineData("minimumBill: { amount: 20, per: month, counts: [energyCharge] }", "has a minimum bill, which is not in the price per kWh: below it, one more kWh costs nothing.")]
    [InlineData("customerCharges: [ { name: Fee, amount: 1, per: month, useBand: { upToKwh: 10 } } ]", "has amounts that depend on the use of the billing period, which are not in the price per kWh.")]
    [InlineData("customerCharges: [ { name: Fee, amount: 1, per: month } ]", null)]
    [InlineData("credits: [ { name: Off, amount: 1, per: month, useBand: { upToKwh: 10 } } ]", "has amounts that depend on the use of the billing period, which are not in the price per kWh.")]
    [InlineData("credits: [ { name: Off, amount: 1, per: month } ]", null)]
    [InlineData("events: [ { name: saving } ]\nrebates: [ { name: R, event: saving, pricePerKwh: 1, baseline: { days: 3 } } ]", "pays for using less during events, which is not in the price per kWh.")]
    [InlineData(
        "export: { kind: netBilling, creditUse: bankNextBill, offsets: [energyCharge], prices: [ { name: E, pricePerKwh: 0.05 } ] }",
        "banks export credit: a price counts it in full, though it is used later or paid in part.")]
    [InlineData("export: { kind: netBilling, creditUse: thisBill, prices: [ { name: E, pricePerKwh: 0.05 } ] }", null)]
    [InlineData("export: { kind: netMetering }", null)]
    public void Price_ThatLeavesSomethingOut_SaysSo(string rule, string? sentence) =>
        Assert.Equal(
            sentence is null ? [] : [$"Test {sentence}"],
            PriceScheduleBuilder.Build(Plans.Of(Energy + rule), Start, Start + Duration.FromDays(31)).Warnings);

    private static LocalDate Date(string text) => NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;
}
