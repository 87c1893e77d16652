namespace ScheduleOpt.Tariffs.Tests;

// "Each layer prices all use once": what is priced never or twice is named with season, period, layer, billing season and date.
public class PriceCoverageTests
{
    private const string Once = "Each season and period must have exactly one energy charge of each layer on each date; what comes on top is an adjustment.";
    private const string Together = "A charge must cover a season and period that occur together.";
    private const string Holds = "Each period must hold at some time: no window or event gives it, or others come before.";

    private const string Calendar = """
        seasons: [ { name: summer, ranges: [ { from: 06-01, to: 09-30 } ] }, { name: winter, ranges: [ { from: 10-01, to: 05-31 } ] } ]
        periods: [peak, base]
        windows: [ { period: peak, seasons: [summer], from: 12:00, to: 20:00 } ]
        defaultPeriod: base

        """;

    [Theory]
    [InlineData("{ name: A, until: 2026-05-31, pricePerKwh: 1 }, { name: B, from: 2026-06-02, pricePerKwh: 1 }", "season all year, period all hours, from 2026-06-01: 0")]
    [InlineData("{ name: A, until: 2026-05-31, pricePerKwh: 1 }, { name: B, from: 2026-05-31, pricePerKwh: 1 }", "season all year, period all hours, from 2026-05-31: 2")]
    [InlineData("{ name: A, from: 2026-05-31, pricePerKwh: 1 }", "season all year, period all hours: 0")]
    [InlineData("{ name: A, until: 2026-05-31, pricePerKwh: 1 }", "season all year, period all hours, from 2026-06-01: 0")]
    [InlineData("{ name: A, pricePerKwh: 1 }, { name: B, from: 2026-05-31, until: 2026-05-31, pricePerKwh: 1 }", "season all year, period all hours, from 2026-05-31: 2")]
    public void Dates_PricedNeverOrTwice_AreNamed(string charges, string found) =>
        Assert.Equal(("/energyCharges", Once, found), Assert.Single(Plans.Faults($"energyCharges: [ {charges} ]")));

    [Fact]
    public void Dates_ThatFollowEachOther_ArePricedOnce() =>
        Assert.Empty(Plans.Faults("energyCharges: [ { name: A, until: 2026-05-31, pricePerKwh: 1 }, { name: B, from: 2026-06-01, until: 2026-06-01, pricePerKwh: 1 }, { name: C, from: 2026-06-02, pricePerKwh: 1 } ]"));

    [Theory]
    [InlineData("{ name: A, billingSeasons: [hot], pricePerKwh: 1 }", "season all year, period all hours, billing season cold: 0")]
    [InlineData("{ name: A, pricePerKwh: 1 }, { name: B, billingSeasons: [cold], pricePerKwh: 1 }", "season all year, period all hours, billing season cold: 2")]
    [InlineData("{ name: A, pricePerKwh: 1 }, { name: B, layer: delivery, billingSeasons: [cold], pricePerKwh: 1 }", "season all year, period all hours, layer delivery, billing season hot: 0")]
    [InlineData(
        "{ name: A, billingSeasons: [cold], pricePerKwh: 1 }, { name: B, billingSeasons: [hot], until: 2026-05-31, pricePerKwh: 1 }",
        "season all year, period all hours, billing season hot, from 2026-06-01: 0")]
    public void BillingSeasons_PricedNeverOrTwice_AreNamed(string charges, string found) =>
        Assert.Equal(("/energyCharges", Once, found), Assert.Single(Plans.Faults(
            $"billingSeasons: [ {{ name: cold, months: [1, 2, 3, 10, 11, 12] }}, {{ name: hot, months: [4, 5, 6, 7, 8, 9] }} ]\nenergyCharges: [ {charges} ]")));

    // Peak occurs in summer alone: winter peak needs no price, and a charge for it covers nothing.
    [Fact]
    public void Cells_ThatNeverOccur_NeedNoPrice() =>
        Assert.Empty(Plans.Faults(Calendar + "energyCharges: [ { name: Peak, periods: [peak], seasons: [summer], pricePerKwh: 1 }, { name: Base, periods: [base], pricePerKwh: 1 } ]"));

    [Fact]
    public void Cells_WithoutAPrice_AreNamedOneByOne() =>
        Assert.Equal(
            [("/energyCharges", Once, "season summer, period base: 0"), ("/energyCharges", Once, "season winter, period base: 0")],
            Plans.Faults(Calendar + "energyCharges: [ { name: Peak, periods: [peak], pricePerKwh: 1 } ]"));

    [Theory]
    [InlineData("adjustments", "pricePerKwh: 1")]
    [InlineData("demandCharges", "pricePerKw: 1, averagingMinutes: 60")]
    [InlineData("credits", "amount: 1, per: kwh")]
    public void Charge_ForHoursThatNeverOccur_IsNamed(string section, string price)
    {
        var body = Calendar + "energyCharges: [ { name: Energy, pricePerKwh: 1 } ]\n";

        Assert.Equal(
            ($"/{section}/1", Together, "winter, peak"),
            Assert.Single(Plans.Faults($"{body}{section}: [ {{ name: A, {price} }}, {{ name: B, seasons: [winter], periods: [peak], {price} }} ]")));
        Assert.Empty(Plans.Faults($"{body}{section}: [ {{ name: A, {price} }}, {{ name: B, seasons: [winter], periods: [base], {price} }} ]"));
    }

    [Fact]
    public void EnergyCharge_ForHoursThatNeverOccur_IsNamed() =>
        Assert.Equal(("/energyCharges/1", Together, "winter, peak"), Assert.Single(Plans.Faults(
            Calendar + "energyCharges: [ { name: A, pricePerKwh: 1 }, { name: B, seasons: [winter], periods: [peak], pricePerKwh: 1 } ]")));

    [Fact]
    public void Period_ThatNoWindowGives_IsNamedInItsCalendar()
    {
        var spare = "periods: [a, never]\ndefaultPeriod: a\n";
        var faults = Plans.Faults(spare + "energyCharges: [ { name: A, pricePerKwh: 1 } ]\ncalendars: [ { name: one, periods: [x], defaultPeriod: x }, { name: two, periods: [other, x], defaultPeriod: x } ]");

        Assert.Equal([("/periods/1", Holds, "never"), ("/calendars/1/periods/0", Holds, "other")], faults);
    }

    // An event that gives the period makes it occur, in every season; another one's calendar doesn't count.
    [Fact]
    public void Period_ThatAnEventGives_Occurs()
    {
        const string Body = "periods: [rest, critical]\ndefaultPeriod: rest\nevents: [ { name: Event, period: critical } ]\n";

        Assert.Empty(Plans.Faults(Body + "energyCharges: [ { name: A, pricePerKwh: 1 } ]"));
        Assert.Equal("season all year, period critical: 0", Assert.Single(Plans.Faults(Body + "energyCharges: [ { name: A, periods: [rest], pricePerKwh: 1 } ]")).Found);
        Assert.Equal(("/calendars/0/periods/1", Holds, "critical"), Assert.Single(Plans.Faults(
            Body + "energyCharges: [ { name: A, pricePerKwh: 1 } ]\ncalendars: [ { name: one, periods: [rest, critical], defaultPeriod: rest } ]")));
    }

    [Fact]
    public void Layer_OverTwoCalendars_IsNamed()
    {
        const string Calendars = "calendars: [ { name: one, periods: [x], defaultPeriod: x } ]\n";

        Assert.Equal(
            ("/energyCharges", "All energy charges of one layer must have the same calendar.", "layer energy"),
            Assert.Single(Plans.Faults(Calendars + "energyCharges: [ { name: A, pricePerKwh: 1 }, { name: B, calendar: one, pricePerKwh: 1 } ]")));
        Assert.Empty(Plans.Faults(Calendars + "energyCharges: [ { name: A, pricePerKwh: 1 }, { name: B, layer: other, calendar: one, pricePerKwh: 1 } ]"));
    }
}
