using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

public class RatePlanReportTests
{
    public static TheoryData<string> SamplePlans => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(SamplePlans))]
    public void Check_SamplePlan_HasNoFault(string id)
    {
        var report = RatePlanDocument.Check(RatePlanLibrary.FindJson(id)!, id);

        Assert.NotNull(report.Plan);
        Assert.Empty(report.Faults);
    }

    // Six slips in one document: all of them are named at once, each with its line and what to do.
    [Fact]
    public void Check_SixSlips_NamesAllWithLineAndSuggestion()
    {
        const string Text = """
            name: Slips
            utility: Test
            source: Test
            currency: USD
            timeZone: America/Chicgo
            effective: { from: 2026-02-30 }
            metering: wholeHouse
            periods: [on-peak, off-peak]
            windows:
              - { period: on-paek, from: 7:30, to: 20:00 }
            defaultPeriod: off-peak
            customerCharge: []
            customerCharges: []
            energyCharges:
              - { name: Energy, pricePerKWh: 0.1 }
            rounding: { each: line, mode: halfUp }
            proration: { month: thirtyday }
            """;

        var report = RatePlanDocument.Check(Text, "slips");

        Assert.Null(report.Plan);
        (int?, string, string)[] found = [.. report.Faults.Select(f => (f.Fault.Line, f.Fault.Pointer, f.Suggestion))];
        Assert.Contains((5, "#/timeZone", "Did you mean America/Chicago?"), found);
        Assert.Contains((6, "#/effective/from", "Is there such a day?"), found);
        Assert.Contains((10, "#/windows/0/period", "Did you mean on-peak?"), found);
        Assert.Contains((10, "#/windows/0/from", "Two digits each: 07:30."), found);
        Assert.Contains((12, "#/customerCharge", "Did you mean customerCharges?"), found);
        Assert.Contains((15, "#/energyCharges/0/pricePerKWh", "Did you mean pricePerKwh?"), found);
        Assert.Contains((17, "#/proration/month", "Did you mean thirtyDays?"), found);
    }

    [Theory]
    [InlineData("0.11", "11", "decimal point")]
    [InlineData("0.11", "-0.02", "below zero")]
    [InlineData("11", "12", "cents")]
    [InlineData("0", "0", "costs anything")]
    public void Check_SuspiciousPrices_AreWarnings(string night, string day, string words)
    {
        var text = $$"""
            name: Odd
            utility: Test
            source: Test
            currency: USD
            timeZone: UTC
            effective: { from: 2026-01-01 }
            metering: wholeHouse
            periods: [day, night, other]
            windows: [ { period: day, from: 07:00, to: 20:00 }, { period: other, from: 20:00, to: 21:00 } ]
            defaultPeriod: night
            customerCharges: []
            energyCharges:
              - { name: Night, periods: [night, other], pricePerKwh: {{night}} }
              - { name: Day, periods: [day], pricePerKwh: {{day}} }
              - { name: Unused, layer: second, pricePerKwh: {{night}} }
            rounding: { each: line, mode: halfUp }
            proration: { month: none }
            """;

        var report = RatePlanDocument.Check(text, "odd");

        Assert.NotNull(report.Plan);
        Assert.Contains(report.Warnings, w => w.Fault.Rule.Contains(words, StringComparison.Ordinal) && w.Fault.Line > 11);
    }
}
