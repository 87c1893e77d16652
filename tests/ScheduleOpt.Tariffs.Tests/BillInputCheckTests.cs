using NodaTime;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Tests;

// What is given beside a plan: a fault that names it, its rule and what was found, never an exception of arithmetic. At a limit there is none.
public class BillInputCheckTests
{
    private const string Clock = "A price series must start on a whole second and have an interval of whole minutes, from one minute to a day.";
    private const string Bank = "A bank must hold 0 to 1e9 kWh.";
    private const string Credit = "A credit bank must hold -1e12 to 1e12 of the currency.";
    private const string Peak = "A past peak must be 0 to 1e9 kW, in a month of 1 to 12 and a year of 1 to 9999.";

    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);
    private static readonly MeteredSeries Use = Plans.Even(Start, Duration.FromHours(1), 24, 24);
    private static readonly RatePlan Flat = Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0.1 } ]");

    [Theory]
    [InlineData(0, 0, "start 2026-01-01T00:00:00Z, interval 0 s")]
    [InlineData(-3600, 0, "start 2026-01-01T00:00:00Z, interval -3600 s")]
    [InlineData(30, 0, "start 2026-01-01T00:00:00Z, interval 30 s")]
    [InlineData(90, 0, "start 2026-01-01T00:00:00Z, interval 90 s")]
    [InlineData(86460, 0, "start 2026-01-01T00:00:00Z, interval 86460 s")]
    [InlineData(3600, 0.5, "start 2026-01-01T00:00:00Z, interval 3600 s")]
    [InlineData(60, 0, null)]
    [InlineData(86400, 0, null)]
    [InlineData(900, 1, null)]
    public void Prices_NotOnTheClock_AreAFault(double intervalSeconds, double startSeconds, string? found)
    {
        // Where a stated price fills each gap, nothing else would stop such a series.
        var plan = Market("missing: price, missingPrice: 0.1");
        var prices = new PriceSeries(Start + Duration.FromSeconds(startSeconds), Duration.FromSeconds(intervalSeconds), [0.10m, 0.20m]);
        var input = Given("market", prices);
        if (found is null)
        {
            Assert.Empty(BillInputCheck.Faults(plan, Use, input));
            return;
        }

        Assert.Equal(new PlanFault("/prices/market", Clock, found), Assert.Single(BillInputCheck.Faults(plan, Use, input)));
        Assert.Contains(Clock, Assert.Throws<ArgumentException>(() => Biller.Bill(plan, Use, input: input)).Message, StringComparison.Ordinal);
        var refused = Assert.Throws<ArgumentException>(() => PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromHours(1), input: input));
        Assert.StartsWith($"/prices/market: {Clock} Found: {found}", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1_000_000_000_000_000, 0, 0, 2026, 1, null, null, null)]
    [InlineData(1_000_000_000_000_001, 0, 0, 2026, 1, "/state/bankMicroKwh/pool", Bank, "1000000000000001 x 1e-6 kWh")]
    [InlineData(-1, 0, 0, 2026, 1, "/state/bankMicroKwh/pool", Bank, "-1 x 1e-6 kWh")]
    [InlineData(0, 1e12, 0, 2026, 1, null, null, null)]
    [InlineData(0, 1000000000001, 0, 2026, 1, "/state/creditBank", Credit, "1000000000001")]
    [InlineData(0, -1e12, 0, 2026, 1, null, null, null)]
    [InlineData(0, -1000000000001, 0, 2026, 1, "/state/creditBank", Credit, "-1000000000001")]
    [InlineData(0, 0, 1e9, 2026, 1, null, null, null)]
    [InlineData(0, 0, 1000000001, 2026, 1, "/state/peaks/Demand", Peak, "1000000001 kW in 2026-1")]
    [InlineData(0, 0, -0.5, 2026, 1, "/state/peaks/Demand", Peak, "-0.5 kW in 2026-1")]
    [InlineData(0, 0, 1, 2026, 12, null, null, null)]
    [InlineData(0, 0, 1, 2026, 13, "/state/peaks/Demand", Peak, "1 kW in 2026-13")]
    [InlineData(0, 0, 1, 2026, 0, "/state/peaks/Demand", Peak, "1 kW in 2026-0")]
    [InlineData(0, 0, 1, 1, 1, null, null, null)]
    [InlineData(0, 0, 1, 0, 1, "/state/peaks/Demand", Peak, "1 kW in 0-1")]
    [InlineData(0, 0, 1, 9999, 1, null, null, null)]
    [InlineData(0, 0, 1, 10000, 1, "/state/peaks/Demand", Peak, "1 kW in 10000-1")]
    public void State_BeyondItsLimits_IsAFault(long bank, double credit, double kw, int year, int month, string? path, string? rule, string? found)
    {
        var state = new BillState
        {
            BankMicroKwh = new Dictionary<string, long> { ["pool"] = bank },
            CreditBank = (decimal)credit,
            Peaks = [new PastPeak("Demand", year, month, (decimal)kw)],
        };

        Expect(path is null ? null : new(path, rule!, found!), Flat, new() { State = state });
    }

    [Theory]
    [InlineData("10000", false)]
    [InlineData("0.001", false)]
    [InlineData("10000.1", true)]
    [InlineData("0", true)]
    [InlineData("-1", true)]
    public void ServiceKw_BeyondItsLimits_IsAFault(string kw, bool isFault) =>
        Expect(isFault ? new("/serviceKw", "It must be more than 0 and at most 10000 kW.", kw) : null, Flat, new() { ServiceKw = decimal.Parse(kw, null) });

    [Fact]
    public void Choice_OfNoOptionOrNoChoice_IsAFault()
    {
        var plan = Plans.Of("""
            options: [ { name: place, choices: [coast, valley], default: coast }, { name: heating, choices: [gas, electric], default: gas } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.1 } ]
            adjustments: [ { name: Market, when: { place: [valley] }, hourlyPrice: { series: market, missing: refuse } } ]
            """);
        BillInput Chosen(string option, string choice) => new() { Choices = new Dictionary<string, string> { [option] = choice } };

        Expect(new("/choices/colour", "It must be an option of the plan: place, heating.", "colour"), plan, Chosen("colour", "red"));
        Expect(new("/choices/colour", "It must be an option of the plan: none.", "colour"), Flat, Chosen("colour", "red"));
        Expect(new("/choices/place", "It must be one of coast, valley.", "desert"), plan, Chosen("place", "desert"));
        Expect(null, plan, Chosen("heating", "electric"));
        // "Whatever has a when that the choices don't match needs nothing beside the plan"; under the other choice it does.
        Expect(new("/prices/market", "The plan needs this price series beside it.", "none"), plan, Chosen("place", "valley"));
    }

    [Theory]
    [InlineData(0, 60, 24, false)]
    [InlineData(1, 60, 24, true)]
    [InlineData(0, 30, 24, true)]
    [InlineData(0, 60, 23, true)]
    public void Export_OfAnotherShape_IsAFault(int startsAt, int minutes, int count, bool isFault) =>
        Expect(
            isFault ? new("/export", "Export must have the start, interval and length of the import.", $"{count} intervals") : null,
            Flat,
            new() { Export = Plans.Even(Start + Duration.FromHours(startsAt), Duration.FromMinutes(minutes), count, 1) });

    [Fact]
    public void Event_UnknownOrWithoutLength_IsAFault()
    {
        var plan = Plans.Of("energyCharges: [ { name: Energy, pricePerKwh: 0.1 } ]\nevents: [ { name: saving }, { name: warning } ]");
        BillInput Called(string name, int fromHour, int toHour) => new()
        {
            Events = new Dictionary<string, IReadOnlyList<CalledEvent>> { [name] = [new(new(2026, 1, 1, fromHour, 30), new(2026, 1, 1, toHour, 30))] },
        };

        Expect(new("/events/storm", "It must be an event of the plan: saving, warning.", "storm"), plan, Called("storm", 1, 2));
        Expect(new("/events/storm", "It must be an event of the plan: none.", "storm"), Flat, Called("storm", 1, 2));
        Expect(new("/events/saving", "An event must end after it begins.", "2026-01-01T02:30"), plan, Called("saving", 2, 2));
        Expect(new("/events/saving", "An event must end after it begins.", "2026-01-01T02:30"), plan, Called("saving", 2, 1));
        Expect(null, plan, Called("saving", 2, 3));
    }

    // "no bill, if any part of the series has no price": the first that is missing is named, and those outside the bill don't matter.
    [Theory]
    [InlineData(24, -1, null)]
    [InlineData(23, -1, "none at 2026-01-01T23:00:00Z")]
    [InlineData(24, 5, "none at 2026-01-01T05:00:00Z")]
    [InlineData(30, 24, null)]
    public void Prices_WithAGap_AreAFault(int count, int gap, string? found)
    {
        var prices = new PriceSeries(Start, Duration.FromHours(1), [.. Enumerable.Range(0, count).Select(h => h == gap ? null : (decimal?)0.1m)]);

        Expect(
            found is null ? null : new("/prices/market", "The series must have a price for each interval of the bill, or the plan a rule for missing ones.", found),
            Market("missing: refuse"),
            Given("market", prices));
    }

    // Energy charges, adjustments and export prices all need theirs.
    [Fact]
    public void Prices_NeededAnywhere_AreAFault()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, hourlyPrice: { series: first, missing: refuse } } ]
            adjustments: [ { name: Adjustment, hourlyPrice: { series: second, missing: refuse } } ]
            export: { kind: netBilling, creditUse: thisBill, prices: [ { name: Export, hourlyPrice: { series: third, missing: refuse } } ] }
            """);

        Assert.Equal(["/prices/first", "/prices/second", "/prices/third"], BillInputCheck.Faults(plan, Use, BillInput.None).Select(f => f.Path));
        var empty = new PriceSeries(Start, Duration.FromHours(1), []);
        var given = new BillInput { Prices = new Dictionary<string, PriceSeries> { ["first"] = empty, ["second"] = empty, ["third"] = empty } };
        Assert.Equal(["/prices/first", "/prices/second", "/prices/third"], BillInputCheck.Faults(plan, Use, given).Select(f => f.Path));
    }

    private static RatePlan Market(string rule) => Plans.Of($"energyCharges: [ {{ name: Energy, hourlyPrice: {{ series: market, {rule} }} }} ]");

    private static BillInput Given(string name, PriceSeries prices) => new() { Prices = new Dictionary<string, PriceSeries> { [name] = prices } };

    private static void Expect(PlanFault? fault, RatePlan plan, BillInput input)
    {
        Assert.Equal(fault is null ? [] : [fault], BillInputCheck.Faults(plan, Use, input));
        if (fault is null)
        {
            Assert.NotEmpty(Biller.Bill(plan, Use, input: input).Periods);
        }
        else
        {
            var refused = Assert.Throws<ArgumentException>(() => Biller.Bill(plan, Use, input: input));
            Assert.StartsWith($"{fault.Path}: {fault.Rule} Found: {fault.Found}", refused.Message, StringComparison.Ordinal);
        }
    }
}
