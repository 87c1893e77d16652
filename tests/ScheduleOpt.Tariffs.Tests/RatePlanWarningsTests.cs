namespace ScheduleOpt.Tariffs.Tests;

// What can be billed and is odd all the same: more often than not a slip of the decimal point.
public class RatePlanWarningsTests
{
    private const string Rare = "A price more than 20 times or less than a 20th of the plan's middle price is rare: is the decimal point right?";
    private const string Negative = "An energy charge below zero is rare: is it an adjustment or a credit?";

    // Middle price 0.10: 2.00 is 20 times, 0.005 a 20th.
    [Theory]
    [InlineData("2.0", null, null)]
    [InlineData("2.01", Rare, "2.01 beside 0.10")]
    [InlineData("0.005", null, null)]
    [InlineData("0.0049", Rare, "0.0049 beside 0.10")]
    [InlineData("0", null, null)]
    [InlineData("-0.01", Negative, "-0.01")]
    public void Price_FarFromTheMiddle_IsNamed(string price, string? rule, string? found)
    {
        var warnings = Warnings($$"""
            periods: [a, b, c]
            windows: [ { period: a, from: 00:00, to: 08:00 }, { period: b, from: 08:00, to: 16:00 } ]
            defaultPeriod: c
            energyCharges: [ { name: A, periods: [a], pricePerKwh: 0.10 }, { name: B, periods: [b], pricePerKwh: 0.10 }, { name: C, periods: [c], pricePerKwh: {{price}} } ]
            """);

        Assert.Equal(rule is null ? [] : [new("/energyCharges/2/pricePerKwh", rule, found!)], warnings);
    }

    [Fact]
    public void Price_OfABlock_IsNamedWithItsBlock() =>
        Assert.Equal(
            new PlanFault("/energyCharges/0/blocks/1/pricePerKwh", Rare, "9 beside 0.10"),
            Assert.Single(Warnings("energyCharges: [ { name: A, limitPer: month, blocks: [ { upToKwh: 10, pricePerKwh: 0.10 }, { upToKwh: 20, pricePerKwh: 9 }, { pricePerKwh: 0.10 } ] } ]")));

    // Prices by period inside one block: middle 0.20 of 0.10, 0.20 and 9.
    [Fact]
    public void Price_OfAPeriodInABlock_IsNamedWithItsBlock() =>
        Assert.Equal(
            new PlanFault("/energyCharges/0/blocks/0/pricePerKwh", Rare, "9 beside 0.20"),
            Assert.Single(Warnings("""
                periods: [a, b, c]
                windows: [ { period: a, from: 00:00, to: 08:00 }, { period: b, from: 08:00, to: 16:00 } ]
                defaultPeriod: c
                energyCharges: [ { name: A, limitPer: month, fill: inProportion, blocks: [ { upToKwh: 5, pricePerKwh: { a: 0.10, b: 0.20, c: 9 } }, { pricePerKwh: { a: 0.10, b: 0.20, c: 0.10 } } ] } ]
                """).Take(1)));

    // Two dollars a kWh are cents; two yen are not. Less than a twentieth of a cent is a price for each Wh.
    [Theory]
    [InlineData("USD", "2", null)]
    [InlineData("USD", "2.01", "these look like cents.")]
    [InlineData("CAD", "12", "these look like cents.")]
    [InlineData("AUD", "12", "these look like cents.")]
    [InlineData("NZD", "12", "these look like cents.")]
    [InlineData("EUR", "12", "these look like cents.")]
    [InlineData("GBP", "12", "these look like cents.")]
    [InlineData("CHF", "12", "these look like cents.")]
    [InlineData("JPY", "12", null)]
    [InlineData("USD", "0.0005", null)]
    [InlineData("USD", "0.00049", "these look like prices for each Wh.")]
    [InlineData("JPY", "0.0001", "these look like prices for each Wh.")]
    public void Price_OfAnotherUnit_IsNamed(string currency, string price, string? what)
    {
        var warnings = RatePlanWarnings.Of(Plans.Of($"energyCharges: [ {{ name: A, pricePerKwh: {price} }} ]") with { Currency = currency });

        Assert.Equal(what is null ? [] : [new("/energyCharges", $"Prices are in {currency} for each kWh: {what}", price)], warnings);
    }

    [Theory]
    [InlineData("0.07", true)]
    [InlineData("0.1", false)]
    [InlineData("7", false)]
    [InlineData("0", false)]
    [InlineData("-0.05", false)]
    public void Tax_OfLessThanATenthOfAPercent_IsNamed(string percent, bool named)
    {
        var plan = Plans.Of($"energyCharges: [ {{ name: A, pricePerKwh: 0.1 }} ]\ntaxes: [ {{ name: T, percent: {percent}, on: {{ parts: [energyCharge] }} }} ]");
        var expected = new PlanFault("/taxes/0/percent", "A percentage below 0.1 is rare: 7 per cent is written 7, not 0.07.", percent);

        Assert.Equal(named ? [expected] : [], RatePlanWarnings.Of(plan));
        Assert.Equal(named ? [expected with { Path = "/taxes/percent" }] : [], RatePlanWarnings.Of(plan with { Taxes = [plan.Taxes[0] with { Place = null }] }));
    }

    [Fact]
    public void Plan_InWhichNoKwhCosts_IsNamed()
    {
        var fault = new PlanFault("/energyCharges", "No kWh costs anything.", "0");

        Assert.Equal([fault], Warnings("energyCharges: [ { name: A, pricePerKwh: 0 } ]"));
        Assert.Empty(Warnings("energyCharges: [ { name: A, pricePerKwh: 0 } ]\nadjustments: [ { name: B, pricePerKwh: 0.1 } ]"));
        Assert.Empty(Warnings("energyCharges: [ { name: A, hourlyPrice: { series: market, missing: refuse } } ]"));
    }

    [Fact]
    public void Event_ListedAgainstThePlansOwnRules_IsNamed()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: A, pricePerKwh: 0.1 } ]
            events: [ { name: Event, limits: { hoursPerEvent: 2 }, past: [ { from: 2026-07-01T10:00, to: 2026-07-01T13:00 } ] } ]
            """);
        var expected = new PlanFault("/events/0/past", "Listed events should keep the plan's own rules.", "the event of 2026-07-01 10:00 is longer than 2 h.");

        Assert.Equal([expected], RatePlanWarnings.Of(plan));
        Assert.Equal([expected with { Path = "/events/past" }], RatePlanWarnings.Of(plan with { Events = [plan.Events[0] with { Place = null }] }));
    }

    [Fact]
    public void Charge_MadeInCode_IsNamedByItsSection()
    {
        var plan = Plans.Of("energyCharges: [ { name: A, pricePerKwh: 12 } ]");

        Assert.Equal("/energyCharges/pricePerKwh", RatePlanWarnings.Of(plan with { EnergyCharges = [plan.EnergyCharges[0] with { Place = null, Blocks = [new(null, -1)] }] })[0].Path);
    }

    private static IReadOnlyList<PlanFault> Warnings(string body) => RatePlanWarnings.Of(Plans.Of(body));
}
