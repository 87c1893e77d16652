using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// Stretches of time before 1970, days by the standard clock, and the words of energy lines. Worked by hand.
public class ClockAndRuleTests
{
    // "Intervals whose start falls into the same stretch since 1970": 23:00 to 24:00 and 00:00 to 01:00 are two, on both sides of the beginning too. Netted as one,
    // import and export would cancel; as two, 1 kWh costs 0.10 and 1 kWh earns 0.05.
    [Fact]
    public void Netting_AroundTheBeginningOf1970_KeepsHoursApart()
    {
        var plan = Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]\nexport: { kind: netBilling, creditUse: thisBill, nettingMinutes: 60, prices: [ { name: Export, pricePerKwh: 0.05 } ] }");
        var start = Instant.FromUtc(1969, 12, 31, 23, 0);
        var import = MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(30), [1, 0, 0, 0]);
        var export = MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(30), [0, 0, 0, 1]);

        Assert.Equal(0.05m, Biller.Bill(plan, import, [], new() { Export = export }).Total);
        Assert.Equal(0, Biller.Bill(plan, import, [], new() { Export = MeteredSeries.FromKilowattHours(start, Duration.FromMinutes(30), [0, 1, 0, 0]) }).Total);
    }

    // From 22:30 the first whole hour begins at 23:00: 2 + 2 kWh, not the 2 kWh of 00:00, and not the 5 kWh of 22:30.
    [Fact]
    public void Demand_Before1970_IsAlignedWithTheClock()
    {
        var plan = Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0 } ]\ndemandCharges: [ { name: Demand, pricePerKw: 1, averagingMinutes: 60 } ]");
        var use = MeteredSeries.FromKilowattHours(Instant.FromUtc(1969, 12, 31, 22, 30), Duration.FromMinutes(30), [5, 2, 2, 1, 1]);

        Assert.Equal(4m, Biller.Bill(plan, use, []).Total);
    }

    // New York in July is four hours behind, its standard time five: 04:00 UTC of the 2nd is still the 1st by the standard clock. The two highest days are then 10 and 0
    // kW; by the legal clock 10 and 6.
    [Theory]
    [InlineData("standard", "5")]
    [InlineData("legal", "8")]
    public void MeanOfDailyHighest_ByTheCalendarsClock_CountsItsDates(string clock, string expected)
    {
        var plan = Plans.Of($$"""
            timeZone: America/New_York
            calendars: [ { name: own, clock: {{clock}}, periods: [x], defaultPeriod: x } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, calendar: own, pricePerKw: 1, averagingMinutes: 60, measure: meanOfDailyHighest, days: 2 } ]
            """);
        var start = Instant.FromUtc(2026, 7, 1, 4, 0);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.WithUse(start, 72, (8, 6), (24, 10))).Total);
    }

    // 20 kWh at 0.05 for 5 and 0.09 for 15: 1.60, 0.08 on average; with 5 % losses 21 kWh, 1.68, the same average.
    [Theory]
    [InlineData("", "20", "1.60")]
    [InlineData("lossFactor: 1.05, ", "21", "1.68")]
    public void HourlyLine_ShowsTheMeanPrice(string losses, string quantity, string amount)
    {
        var plan = Plans.Of($"energyCharges: [ {{ name: Energy, {losses}hourlyPrice: {{ series: market, missing: refuse }} }} ]");
        var start = Instant.FromUtc(2026, 1, 1, 0, 0);
        var prices = new PriceSeries(start, Duration.FromHours(1), [0.05m, 0.09m]);
        var line = Biller.Bill(
            plan, MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), [5, 15]), input: new() { Prices = new Dictionary<string, PriceSeries> { ["market"] = prices } }).Periods[0].Lines.Single();

        Assert.Equal((decimal.Parse(quantity, null), 0.08m, decimal.Parse(amount, null)), (line.Quantity, line.Price, line.Amount));
        Assert.Equal("energy x price of each interval of market", line.Rule);
    }

    // 20 kWh at 0.10, past a limit of 15 where there is one.
    [Theory]
    [InlineData("pricePerKwh: 0.1", "energy x price")]
    [InlineData("lossFactor: 1.05, pricePerKwh: 0.1", "energy x price, energy x 1.05 for losses")]
    [InlineData("limitPer: month, blocks: [ { upToKwh: 15, pricePerKwh: 0.1 }, { pricePerKwh: 0.2 } ]", "energy of the block x its price")]
    [InlineData("limitPer: month, wholeUse: true, blocks: [ { upToKwh: 15, pricePerKwh: 0.1 }, { pricePerKwh: 0.2 } ]", "all the use at the price of the block that it ends in")]
    [InlineData(
        "limitPer: month, fill: inProportion, blocks: [ { upToKwh: 15, pricePerKwh: { a: 0.1, b: 0.2 } }, { pricePerKwh: { a: 0.2, b: 0.3 } } ]",
        "energy of the block x its price, split over the periods in proportion to their use")]
    [InlineData(
        "limitPer: month, fill: inTimeOrder, blocks: [ { upToKwh: 15, pricePerKwh: { a: 0.1, b: 0.2 } }, { pricePerKwh: { a: 0.2, b: 0.3 } } ]",
        "energy of the block x its price, blocks filled in order of time")]
    public void EnergyLine_OfEachKind_SaysItsRule(string price, string rule)
    {
        var plan = Plans.Of($"periods: [a, b]\ndefaultPeriod: a\nwindows: [ {{ period: b, from: 12:00, to: 13:00 }} ]\nenergyCharges: [ {{ name: Energy, {price} }} ]");

        Assert.All(Biller.Bill(plan, Plans.OneMonth(20)).Periods[0].Lines, line => Assert.Equal((rule, "energy"), (line.Rule, line.Layer)));
    }

    [Fact]
    public void Household_CarMeterWithoutAPlanForTheHouse_IsRefusedByName()
    {
        var plan = Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0.1 } ]") with { Metering = Metering.SeparateMeter };

        Assert.StartsWith(
            "Test is for the car's meter: the house needs a plan of its own.",
            Assert.Throws<ArgumentException>(() => Biller.Household(plan, null, Plans.OneMonth(1), Plans.OneMonth(1))).Message,
            StringComparison.Ordinal);
    }
}
