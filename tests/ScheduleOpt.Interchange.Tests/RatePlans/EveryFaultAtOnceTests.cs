using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

// A document that is wrong in many ways is named as wrong in all of them: what can't be read and what contradicts itself.
public class EveryFaultAtOnceTests
{
    private static string Document(string zone, string winter, string windows) => $$"""
        name: Test
        utility: Test
        source: Test
        currency: USD
        timeZone: {{zone}}
        effective: { from: 2026-01-01 }
        metering: wholeHouse
        seasons:
          - { name: summer, ranges: [ { from: 06-01, to: 09-30 } ] }
          - { name: winter, ranges: {{winter}} }
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }
        holidays: []
        periods: [on-peak, off-peak]
        windows:
        {{windows}}
        customerCharges: []
        energyCharges:
          - { name: On-peak, periods: [on-peak], pricePerKwh: 0.2 }
          - { name: Off-peak, periods: [off-peak], limitPer: month, blocks: [ { upToKwh: 200, pricePerKwh: 0.1 }, { upToKwh: 150, pricePerKwh: 0.2 }, { pricePerKwh: 0.3 } ] }
        rounding: { each: line, mode: halfUp }
        proration: { month: none }
        """;

    private const string Year = "[ { from: 10-01, to: 05-31 } ]";

    private const string Gaps = """
          - { period: off-peak, dayTypes: [weekday], from: 00:00, to: 07:00 }
          - { period: on-peak, dayTypes: [weekday], from: 08:00, to: 12:00 }
          - { period: on-peak, dayTypes: [weekday], from: 13:00, to: 20:00 }
          - { period: off-peak, dayTypes: [weekday], from: 19:00, to: 24:00 }
          - { period: off-peak, dayTypes: [weekend], from: 00:00, to: 24:00 }
        """;

    [Fact]
    public void WindowsWithGapsAndAnOverlap_EachIsNamedForEachSeason()
    {
        var found = Found(Document("America/Chicago", Year, Gaps));

        foreach (var season in new[] { "summer", "winter" })
        {
            Assert.Contains($"season {season}, day type weekday: 07:00 to 08:00 is in no window", found);
            Assert.Contains($"season {season}, day type weekday: 12:00 to 13:00 is in no window", found);
            Assert.Contains($"season {season}, day type weekday: 19:00 to 20:00 is in windows of on-peak and off-peak", found);
        }

        Assert.DoesNotContain(found, f => f.Contains("day type weekend", StringComparison.Ordinal));
    }

    [Fact]
    public void ZoneUnknownWindowsWithGapsBlocksUnsorted_AreNamedTogether()
    {
        var report = RatePlanDocument.Check(Document("America/Chicgo", Year, Gaps), "test");

        Assert.Null(report.Plan);
        Assert.Contains(report.Faults, f => f.Fault.Pointer == "#/timeZone" && f.Suggestion.Contains("America/Chicago", StringComparison.Ordinal));
        Assert.Contains(report.Faults, f => f.Fault.Pointer == "#/windows" && f.Fault.Line == 17);
        Assert.Contains(report.Faults, f => f.Fault.Pointer == "#/energyCharges/1/blocks/1/upToKwh" && f.Fault.Value.StartsWith("150", StringComparison.Ordinal));
        Assert.All(report.Faults, f => Assert.True(f.Fault.Line > 0 && f.Suggestion.Length > 0));
    }

    [Fact]
    public void SeasonsWithTwoHoles_BothAreNamedWithTheirDays()
    {
        var found = Found(Document("America/Chicago", "[ { from: 10-15, to: 12-31 }, { from: 02-01, to: 05-31 } ]", "  - { period: off-peak, from: 00:00, to: 24:00 }"));

        Assert.Equal(2, found.Count(f => f.Contains("lie in none", StringComparison.Ordinal)));
    }

    private static string[] Found(string document) => [.. RatePlanDocument.Check(document, "test").Faults.Select(f => f.Fault.Value ?? "")];
}
