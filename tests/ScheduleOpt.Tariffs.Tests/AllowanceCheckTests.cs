namespace ScheduleOpt.Tariffs.Tests;

// "All seasons that the charge covers must have the same amount": of the allowance, under every combination of choices.
public class AllowanceCheckTests
{
    private const string One = "The allowance must have exactly one amount for all seasons that the charge covers; write a charge for each where they differ.";

    private const string Head = """
        seasons: [ { name: summer, ranges: [ { from: 06-01, to: 09-30 } ] }, { name: winter, ranges: [ { from: 10-01, to: 05-31 } ] } ]
        options: [ { name: place, choices: [coast, valley], default: coast } ]

        """;

    private const string Blocks = "limitPer: day, blocks: [ { upToAllowance: 1, pricePerKwh: 1 }, { pricePerKwh: 2 } ]";

    [Theory]
    [InlineData("{ kwh: 8, seasons: [summer] }, { kwh: 9, seasons: [winter] }", "place coast: 8, 9")]
    [InlineData("{ kwh: 8, seasons: [summer] }", "place coast: 8, 0 amounts")]
    [InlineData("{ kwh: 8 }, { kwh: 8, seasons: [winter] }", "place coast: 8, 2 amounts")]
    [InlineData("{ kwh: 8, when: { place: [coast] } }", "place valley: 0 amounts, 0 amounts")]
    [InlineData("{ kwh: 8, when: { place: [coast] } }, { kwh: 9, seasons: [summer], when: { place: [valley] } }, { kwh: 7, seasons: [winter], when: { place: [valley] } }", "place valley: 9, 7")]
    public void Allowance_WithoutOneAmount_IsNamedWithTheChoices(string amounts, string found)
    {
        var allowances = $"allowances: [ {{ name: baseline, amounts: [ {amounts} ] }} ]\n";

        Assert.Equal(("/energyCharges/0/allowance", One, found), Assert.Single(Plans.Faults($"{Head}{allowances}energyCharges: [ {{ name: Energy, allowance: baseline, {Blocks} }} ]")));
        Assert.Equal(
            ("/adjustments/0/allowance", One, found),
            Assert.Single(Plans.Faults($"{Head}{allowances}energyCharges: [ {{ name: Energy, pricePerKwh: 1 }} ]\nadjustments: [ {{ name: Adjustment, allowance: baseline, {Blocks} }} ]")));
    }

    // A charge for each season may have amounts that differ, and one that is there under a choice needs them under that choice alone.
    [Fact]
    public void Allowance_OneAmountForEachCharge_IsInOrder()
    {
        Assert.Empty(Plans.Faults($$"""
            {{Head}}allowances: [ { name: baseline, amounts: [ { kwh: 8, seasons: [summer] }, { kwh: 9, seasons: [winter] } ] } ]
            energyCharges: [ { name: Summer, seasons: [summer], allowance: baseline, {{Blocks}} }, { name: Winter, seasons: [winter], allowance: baseline, {{Blocks}} } ]
            """));
        Assert.Empty(Plans.Faults($$"""
            {{Head}}allowances: [ { name: baseline, amounts: [ { kwh: 8, when: { place: [coast] } } ] } ]
            energyCharges: [ { name: Coast, when: { place: [coast] }, allowance: baseline, {{Blocks}} }, { name: Valley, when: { place: [valley] }, pricePerKwh: 1 } ]
            """));
    }

    [Fact]
    public void Allowance_OfAnotherCalendarOrUnknown_IsNamed()
    {
        const string Allowances = "allowances: [ { name: baseline, amounts: [ { kwh: 8 } ] } ]\n";

        Assert.Equal(
            ("/energyCharges/0/calendar", "Limits by allowance go with the seasons of the plan's own calendar.", "one"),
            Assert.Single(Plans.Faults($"{Head}{Allowances}calendars: [ {{ name: one, periods: [x], defaultPeriod: x }} ]\nenergyCharges: [ {{ name: Energy, calendar: one, allowance: baseline, {Blocks} }} ]")));
        var plan = Plans.Of($"{Head}{Allowances}energyCharges: [ {{ name: Energy, allowance: baseline, {Blocks} }} ]");
        var fault = new PlanFault("/energyCharges/0/allowance", "A charge with upToAllowance must name one of the allowances.", "none");
        Assert.Equal(fault, Assert.Single(RatePlanCheck.Faults(plan with { EnergyCharges = [plan.EnergyCharges[0] with { Allowance = null, Place = null }] })));
        Assert.Equal(fault with { Found = "other" }, Assert.Single(RatePlanCheck.Faults(plan with { EnergyCharges = [plan.EnergyCharges[0] with { Allowance = "other" }] })));
    }
}
