using NodaTime;
using ScheduleOpt.Cli.Screens;

namespace ScheduleOpt.Cli.Tests.Screens;

public sealed class FiguresTests
{
    [Theory]
    [InlineData(1234.565, "1,234.57 USD")]
    [InlineData(-0.004, "0.00 USD")]
    [InlineData(-2.5, "-2.50 USD")]
    public void Money_Any_HasTwoDecimalsAndItsCurrency(double amount, string expected) =>
        Assert.Equal(expected, Figures.Money((decimal)amount, "USD"));

    [Theory]
    [InlineData(1.0, "100 %")]
    [InlineData(0.9999, "99.9 %")]
    [InlineData(0.5, "50.0 %")]
    [InlineData(0.0, "0 %")]
    [InlineData(null, "none")]
    public void Share_NearlyAll_IsNeverShownAsAll(double? share, string expected) => Assert.Equal(expected, Figures.Share(share));

    [Theory]
    [InlineData(0.5, "30 min")]
    [InlineData(9.6666, "9 h 40 min")]
    [InlineData(2, "2 h 00 min")]
    public void Hours_Any_AreHoursAndMinutes(double hours, string expected) => Assert.Equal(expected, Figures.Hours(hours));

    [Fact]
    public void LocalTimes_OverTheRepeatedHour_TellTheTwoApart()
    {
        var first = Instant.FromUtc(2026, 11, 1, 6, 30);
        var times = new LocalTimes(DateTimeZoneProviders.Tzdb["America/Chicago"], first, first + Duration.FromHours(1));

        Assert.Equal("Sun 01 Nov 01:30 CDT to 01:30 CST", times.Span(first, first + Duration.FromHours(1)));
    }

    [Fact]
    public void LocalTimes_ReadyASecondLater_IsShownAMinuteLater()
    {
        var at = Instant.FromUtc(2026, 1, 15, 12, 0);
        var times = new LocalTimes(DateTimeZone.Utc, at, at);

        Assert.Equal("Thu 15 Jan 12:00", times.NotBefore(at));
        Assert.Equal("Thu 15 Jan 12:01", times.NotBefore(at + Duration.FromSeconds(1)));
    }
}
