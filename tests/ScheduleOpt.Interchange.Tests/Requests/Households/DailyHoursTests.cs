using NodaTime;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Tests.Requests.Households;

/// <summary>Hours by the clock on the wall in New York, whose clocks jump from 02:00 to 03:00 on 8 March 2026 and back from 02:00 to 01:00 on 1 November.</summary>
public sealed class DailyHoursTests
{
    private static readonly HouseholdZone Zone = new(DateTimeZoneProviders.Tzdb["America/New_York"]);

    [Theory]
    [InlineData("01:30", "02:30", "2026-03-08", "06:30-07:00")] // Ends with the jump.
    [InlineData("02:30", "04:00", "2026-03-08", "07:00-08:00")] // Begins with the jump.
    [InlineData("02:10", "02:50", "2026-03-08", "")] // The clock never shows it.
    [InlineData("22:00", "06:00", "2026-03-08", "05:00-10:00 02:00-04:00")] // 00:00 to 06:00 are five hours.
    [InlineData("01:15", "01:45", "2026-11-01", "05:15-05:45 06:15-06:45")] // The clock shows it twice.
    [InlineData("00:30", "03:00", "2026-11-01", "04:30-08:00")] // Three and a half hours.
    [InlineData("00:00", "24:00", "2026-11-01", "04:00-05:00")] // The whole day of 25 hours.
    public void Within_NightsOfClockChange_AreWhatTheClockShows(string from, string until, string date, string expected)
    {
        var day = NodaTime.Text.LocalDatePattern.Iso.Parse(date).Value;
        var found = new DailyHours(Minute(from), Minute(until), null).Within(Zone, Zone.StartOf(day), Zone.StartOf(day.PlusDays(1)));

        Assert.Equal(expected, string.Join(' ', found.Select(h => $"{Utc(h.Start)}-{Utc(h.End)}")));
    }

    [Fact]
    public void Within_EveryMinuteOfAYear_IsWhatTheClockShows()
    {
        var (start, end) = (Zone.StartOf(new LocalDate(2026, 1, 1)), Zone.StartOf(new LocalDate(2027, 1, 1)));
        var days = new HashSet<IsoDayOfWeek> { IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday };
        foreach (var (from, until) in new[] { (100, 160), (1380, 150), (130, 1440), (0, 61) })
        {
            var spans = new DailyHours(from, until, days).Within(Zone, start, end);
            for (var at = start; at < end; at += Duration.FromMinutes(10))
            {
                var local = at.InZone(Zone.Zone).LocalDateTime;
                var minute = (local.Hour * 60) + local.Minute;
                var shown = until > from
                    ? minute >= from && minute < until && days.Contains(local.DayOfWeek)
                    : (minute >= from && days.Contains(local.DayOfWeek)) || (minute < until && days.Contains(local.Date.PlusDays(-1).DayOfWeek));
                Assert.True(shown == spans.Any(s => s.Contains(at)), $"{local} of {from} to {until}");
            }
        }
    }

    private static int Minute(string clock) => (60 * int.Parse(clock[..2], null)) + int.Parse(clock[3..], null);

    private static string Utc(Instant instant) => instant.ToString("HH:mm", null);
}
