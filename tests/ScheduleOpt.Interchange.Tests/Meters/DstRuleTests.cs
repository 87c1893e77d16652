using NodaTime;
using ScheduleOpt.Interchange.Meters.GreenButton;

namespace ScheduleOpt.Interchange.Tests.Meters;

// ESPI usage.xsd 3.3, DstRuleType.
public class DstRuleTests
{
    [Theory]
    [InlineData("360E2000", 2026, "2026-03-08T02:00:00")]
    [InlineData("B40E2000", 2026, "2026-11-01T02:00:00")]
    [InlineData("360E2000", 2015, "2015-03-08T02:00:00")]
    [InlineData("3E0E1000", 2026, "2026-03-29T01:00:00")] // last Sunday of March, 01:00
    [InlineData("380A1A8C", 2026, "2026-03-20T01:45:00")] // the schema's own example: third Friday of March, 01:45
    [InlineData("40F00000", 2026, "2026-04-15T00:00:00")] // day of the month: 15 April
    [InlineData("328E2000", 2026, "2026-03-08T02:00:00")] // Sunday on or after 8 March
    public void Rule_InAYear_IsTheDateAndTime(string hex, int year, string expected)
    {
        Assert.True(DstRule.TryParse(hex, out var rule));
        Assert.Equal(expected, rule!.In(year).ToString("uuuu-MM-dd'T'HH:mm:ss", null));
    }

    [Theory]
    [InlineData("00000000")]
    [InlineData("xyz")]
    [InlineData("")]
    [InlineData("F60E2000")]
    public void Rule_WithoutMeaning_IsRefused(string hex) => Assert.False(DstRule.TryParse(hex, out _));

    [Fact]
    public void Rule_AllOnes_SwitchesDaylightSavingOff()
    {
        Assert.True(DstRule.TryParse("FFFFFFFF", out var rule));
        Assert.Null(rule);
    }

    [Theory]
    [InlineData("America/New_York", -18_000, null)]
    [InlineData("America/Phoenix", -18_000, "differs")]
    [InlineData("America/Chicago", -21_600, null)]
    [InlineData("America/Los_Angeles", -28_800, null)]
    public void Clock_AgainstTheTimeZoneDatabase_AgreesForTheYearsOfTheRule(string zone, int offset, string? differs)
    {
        // The rule of 2007 and after.
        Assert.True(DstRule.TryParse("360E2000", out var begins));
        Assert.True(DstRule.TryParse("B40E2000", out var ends));
        var clock = new LocalTimeParameters(offset, 3600, begins, ends);

        var at = clock.DiffersFrom(Samples.Zone(zone), Instant.FromUtc(2008, 1, 1, 0, 0), Instant.FromUtc(2026, 1, 1, 0, 0));
        Assert.Equal(differs is null, at is null);
        // Before 2007 the changes were on other days.
        Assert.NotNull(clock.DiffersFrom(Samples.Zone(zone), Instant.FromUtc(2005, 1, 1, 0, 0), Instant.FromUtc(2006, 1, 1, 0, 0)));
    }
}
