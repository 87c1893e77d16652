using NodaTime;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Choices;

namespace ScheduleOpt.Tariffs.Tests;

// A plan that contradicts itself: one fault at its place, with the rule of tariffs/README.md and what was found. What is only just allowed is allowed.
public class RatePlanCheckTests
{
    private const string Energy = "energyCharges: [ { name: Energy, pricePerKwh: 0.1 } ]\n";
    private const string Rise = "Limits of blocks must rise.";
    private const string Last = "Every block but the last must have a limit, and the last must have none.";
    private const string LastDemand = "Every block but the last must have upToKw, and the last must have none.";

    // "A limit is never below that of the block before"; each block but the last has one.
    [Theory]
    [InlineData("{ upToKwh: 10, pricePerKwh: 1 }, { upToKwh: 10, pricePerKwh: 1 }, { pricePerKwh: 1 }", "/1/upToKwh", Rise, "10 after 10")]
    [InlineData("{ upToKwh: 10, pricePerKwh: 1 }, { upToKwh: 9, pricePerKwh: 1 }, { pricePerKwh: 1 }", "/1/upToKwh", Rise, "9 after 10")]
    [InlineData("{ upToKwh: 10, pricePerKwh: 1 }, { pricePerKwh: 1 }, { pricePerKwh: 1 }", "/1", Last, "block 2")]
    [InlineData("{ upToKwh: 10, pricePerKwh: 1 }, { upToKwh: 20, pricePerKwh: 1 }", "/1", Last, "block 2")]
    [InlineData("{ pricePerKwh: 1 }, { pricePerKwh: 1 }", "/0", Last, "block 1")]
    [InlineData("{ upToKwhPerKw: 100, pricePerKwh: 1 }, { upToKwhPerKw: 100, pricePerKwh: 1 }, { pricePerKwh: 1 }", "/1/upToKwhPerKw", Rise, "100 after 100")]
    [InlineData("{ upToKwh: 10, upToKwhPerKw: 100, pricePerKwh: 1 }, { upToKwh: 20, upToKwhPerKw: 90, pricePerKwh: 1 }, { pricePerKwh: 1 }", "/1/upToKwh", Rise, "20 after 10")]
    [InlineData("{ upToKwh: 10, upToKwhPerKw: 100, pricePerKwh: 1 }, { upToKwh: 10, upToKwhPerKw: 100, pricePerKwh: 1 }, { pricePerKwh: 1 }", "/1/upToKwh", Rise, "10 after 10")]
    public void Blocks_LimitsOutOfOrder_AreNamed(string blocks, string place, string rule, string found)
    {
        const string Demand = "demandCharges: [ { name: Demand, pricePerKw: 1, averagingMinutes: 60 } ]\n";
        var body = $"{Demand}energyCharges: [ {{ name: Energy, limitPer: month, limitDemand: Demand, blocks: [ {blocks} ] }} ]";

        Assert.Equal(($"/energyCharges/0/blocks{place}", rule, found), Assert.Single(Plans.Faults(body)));
        var adjustment = $"{Demand}{Energy}adjustments: [ {{ name: Adjustment, limitPer: month, limitDemand: Demand, blocks: [ {blocks} ] }} ]";
        Assert.Equal(($"/adjustments/0/blocks{place}", rule, found), Assert.Single(Plans.Faults(adjustment)));
    }

    // Of several kinds of limits the lowest holds, so that they needn't all rise.
    [Theory]
    [InlineData("{ upToKwh: 10, pricePerKwh: 1 }, { upToKwh: 10.5, pricePerKwh: 1 }, { pricePerKwh: 1 }")]
    [InlineData("{ upToKwh: 10, upToKwhPerKw: 100, pricePerKwh: 1 }, { upToKwh: 10, upToKwhPerKw: 101, pricePerKwh: 1 }, { pricePerKwh: 1 }")]
    [InlineData("{ upToKwhPerKw: 100, pricePerKwh: 1 }, { upToKwh: 10, pricePerKwh: 1 }, { pricePerKwh: 1 }")]
    [InlineData("{ upToKwhPerKw: 100, pricePerKwh: 1 }, { upToKwh: 10, upToKwhPerKw: 100, pricePerKwh: 1 }, { pricePerKwh: 1 }")]
    public void Blocks_LimitsThatRiseInOneKind_AreInOrder(string blocks) =>
        Assert.Empty(Plans.Faults(
            $"energyCharges: [ {{ name: Energy, limitPer: month, limitDemand: Demand, blocks: [ {blocks} ] }} ]\ndemandCharges: [ {{ name: Demand, pricePerKw: 1, averagingMinutes: 60 }} ]"));

    [Theory]
    [InlineData("{ upToKw: 5, pricePerKw: 1 }, { upToKw: 5, pricePerKw: 2 }, { pricePerKw: 3 }", "/1/upToKw", Rise, "5 after 5")]
    [InlineData("{ upToKw: 5, pricePerKw: 1 }, { upToKw: 4, pricePerKw: 2 }, { pricePerKw: 3 }", "/1/upToKw", Rise, "4 after 5")]
    [InlineData("{ pricePerKw: 1 }, { pricePerKw: 2 }", "/0", LastDemand, "block 1")]
    [InlineData("{ upToKw: 5, pricePerKw: 1 }, { upToKw: 9, pricePerKw: 2 }", "/1", LastDemand, "block 2")]
    public void DemandBlocks_LimitsOutOfOrder_AreNamed(string blocks, string place, string rule, string found) =>
        Assert.Equal(
            ($"/demandCharges/0/blocks{place}", rule, found),
            Assert.Single(Plans.Faults($"{Energy}demandCharges: [ {{ name: Demand, averagingMinutes: 60, blocks: [ {blocks} ] }} ]")));

    [Fact]
    public void DemandBlocks_LimitsThatRise_AreInOrder() =>
        Assert.Empty(Plans.Faults($"{Energy}demandCharges: [ {{ name: Demand, averagingMinutes: 60, blocks: [ {{ upToKw: 5, pricePerKw: 1 }}, {{ upToKw: 5.1, pricePerKw: 2 }}, {{ pricePerKw: 3 }} ] }} ]"));

    // A charge made in code has no place in a document: its section and number stand in for one.
    [Fact]
    public void Charge_MadeInCode_IsNamedByItsNumber()
    {
        var plan = Plans.Of(Energy);
        EnergyCharge Open(string name) => new() { Name = name, Blocks = [new(10, 0.1m)] };
        var demand = new DemandCharge { Name = "Demand", AveragingMinutes = 60, Blocks = [new(10, 1)] };
        var backwards = new CustomerCharge("Fee", 1, ChargeUnit.Month) { From = new LocalDate(2026, 2, 1), Until = new LocalDate(2026, 1, 1) };

        Assert.Equal(
            ["/energyCharges/1/blocks/0", "/adjustments/0/blocks/0", "/demandCharges/0/blocks/0"],
            RatePlanCheck.Faults(plan with { EnergyCharges = [plan.EnergyCharges[0], Open("Second")], Adjustments = [Open("Adjustment")], DemandCharges = [demand] }).Select(f => f.Path));
        Assert.Equal(
            new PlanFault("/0/until", "A charge must not end before it begins.", "2026-02-01 to 2026-01-01"),
            Assert.Single(RatePlanCheck.Faults(plan with { CustomerCharges = [backwards] })));
        Assert.Empty(RatePlanCheck.Faults(plan with { CustomerCharges = [backwards with { Until = backwards.From }] }));
        Assert.Equal("/credits/3/until", Assert.Single(RatePlanCheck.Faults(plan with { CustomerCharges = [backwards with { Place = new("/credits/3") }] })).Path);
    }

    [Fact]
    public void Charge_ThatEndsBeforeItBegins_IsNamedByItsPlace() =>
        Assert.Contains(
            ("/adjustments/0/until", "A charge must not end before it begins.", "2026-03-02 to 2026-03-01"),
            Plans.Faults($"{Energy}adjustments: [ {{ name: Late, from: 2026-03-02, until: 2026-03-01, pricePerKwh: 0.1 }} ]"));

    [Theory]
    [InlineData("[ { name: a, months: [1, 2, 3, 4, 5, 6] }, { name: b, months: [6, 7, 8, 9, 10, 11, 12] } ]", "month 6 lies in 2")]
    [InlineData("[ { name: a, months: [1, 2, 3, 4, 5, 6] }, { name: b, months: [7, 8, 9, 10, 11] } ]", "month 12 lies in 0")]
    [InlineData("[ { name: a, months: [2, 3, 4, 5, 6] }, { name: b, months: [7, 8, 9, 10, 11, 12] } ]", "month 1 lies in 0")]
    public void BillingSeasons_AMonthTwiceOrNever_IsNamed(string seasons, string found) =>
        Assert.Equal(("/billingSeasons", "Each month must lie in exactly one billing season.", found), Assert.Single(Plans.Faults($"billingSeasons: {seasons}\n{Energy}")));

    [Fact]
    public void DemandCharges_OfOneName_AreNamed()
    {
        const string Charge = "{ name: Demand, pricePerKw: 1, averagingMinutes: 60 }";
        var (path, rule, found) = Assert.Single(Plans.Faults($"{Energy}demandCharges: [ {Charge}, {Charge}, {{ name: Other, pricePerKw: 1, averagingMinutes: 60 }} ]"));

        Assert.Equal(("/demandCharges", "Demand"), (path, found));
        Assert.StartsWith("Each demand charge must have a name of its own", rule, StringComparison.Ordinal);
    }

    // 2 x 2 x 2 x 5 x 5 = 200 combinations at most, times 20 charges at most; a plan without options may have any number of charges.
    [Fact]
    public void Options_MoreCombinationsThanTheLimit_AreRefused()
    {
        var plan = Plans.Of(Energy);
        HouseholdOption Option(int number, int choices) => new($"option {number}", [.. Enumerable.Range(0, choices).Select(c => $"{c}")], "0");
        RatePlan With(int charges, params int[] choices) => plan with
        {
            Options = [.. choices.Select((c, i) => Option(i, c))],
            Adjustments = [.. Enumerable.Range(1, charges - 1).Select(i => new EnergyCharge { Name = $"{i}", Blocks = [new(null, 0.01m)] })],
        };

        Assert.Empty(RatePlanCheck.Faults(With(20, 2, 2, 2, 5, 5)));
        Assert.Equal(
            new PlanFault("/options", "Combinations of choices times charges must be at most 4000.", "200 x 21"),
            Assert.Single(RatePlanCheck.Faults(With(21, 2, 2, 2, 5, 5))));
        Assert.Equal(new PlanFault("/options", "There must be at most 200 combinations of choices.", "201"), Assert.Single(RatePlanCheck.Faults(With(1, 3, 67))));
        Assert.Equal("/options", Assert.Single(RatePlanCheck.Faults(With(1, [.. Enumerable.Repeat(100, 40)]))).Path);
        Assert.Empty(RatePlanCheck.Faults(With(4001)));
        Assert.Empty(RatePlanCheck.Faults(With(1, 0, 2)));
    }

    // A contradiction that is there under several choices is named once; one under a single choice is found.
    [Fact]
    public void Options_ContradictionUnderOneChoice_IsFoundOnce()
    {
        const string Options = "options: [ { name: size, choices: [small, large], default: small }, { name: colour, choices: [red, blue], default: red } ]\n";
        const string Both = "{ name: Small, when: { size: [small] }, pricePerKwh: 0.1 }, { name: Large, when: { size: [large] }, pricePerKwh: 0.1 }";
        var (path, _, found) = Assert.Single(Plans.Faults($"{Options}energyCharges: [ {Both}, {{ name: Red, when: {{ colour: [red] }}, pricePerKwh: 0.1 }} ]"));

        Assert.Equal(("/energyCharges", "season all year, period all hours: 2"), (path, found));
        Assert.Empty(Plans.Faults($"{Options}energyCharges: [ {Both} ]"));
    }

    // "Each season and period has exactly one of each layer": with no charge at all the use would cost nothing.
    [Fact]
    public void Options_ChoiceWithoutAnyEnergyCharge_IsNamed() =>
        Assert.Equal(
            ("/energyCharges", "There must be an energy charge under every combination of choices.", "none under one of them"),
            Assert.Single(Plans.Faults("""
                options: [ { name: size, choices: [small, large], default: small }, { name: colour, choices: [red, blue], default: red } ]
                energyCharges: [ { name: Small, when: { size: [small] }, pricePerKwh: 0.1 } ]
                """)));
}
