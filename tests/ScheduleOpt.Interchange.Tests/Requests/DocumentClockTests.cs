using NodaTime;

namespace ScheduleOpt.Interchange.Tests.Requests;

/// <summary>Times of requests in America/Chicago: 8 March 2026 has no 02:30, 1 November 2026 has 01:30 twice.</summary>
public sealed class DocumentClockTests
{
    [Theory]
    [InlineData("2026-01-14T17:30:00-06:00")]
    [InlineData("2026-01-14T23:30:00Z")]
    [InlineData("2026-01-14T17:30")]
    [InlineData("2026-01-14T17:30:00")]
    [InlineData("2026-01-14T17:30:00-06:00[America/Chicago]")]
    public void Time_InAnyForm_IsTheSameInstant(string text) => Assert.Equal(
        Instant.FromUtc(2026, 1, 14, 23, 30),
        RequestText.Schedule().Set("asOf", $"\"{text}\"").Good().AsOf);

    [Theory]
    [InlineData("2026-01-14T17:30:00-05:00", "contradicts")]
    [InlineData("2026-07-14T17:30:00-06:00", "contradicts")]
    [InlineData("2026-01-14T23:30:00+00:00", "contradicts")]
    [InlineData("2026-01-14T17:30:00-06:00[Europe/Berlin]", "brackets")]
    [InlineData("2026-01-14T17:30:00-06:00[!u-ca=hebrew]", "brackets")]
    [InlineData("2026-01-14T17:30:00.5-06:00", "whole seconds")]
    [InlineData("2026-01-14 17:30", "Must be a time")]
    [InlineData("2026-02-29T12:00", "Must be a time")]
    [InlineData("2100-01-02T12:00", "Must be a time")]
    [InlineData("2026-01-14T17:30:60-06:00", "Must be a time")]
    public void Time_ThatIsNone_IsRefused(string text, string rule)
    {
        var fault = Assert.Single(RequestText.Schedule().Set("asOf", $"\"{text}\"").Read().Faults, f => f.Pointer == "#/asOf");
        Assert.Contains(rule, fault.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void Departure_ThatOccursTwice_IsTheFirstAndReturnTheSecond()
    {
        var request = RequestText.Schedule()
            .Set("asOf", "\"2026-10-31T17:30\"")
            .Set("calendar/trips", """
                [
                  { "departure": "2026-11-01T01:30", "return": "2026-11-01T12:00", "distanceKm": 5 },
                  { "departure": "2026-11-01T13:00", "return": "2026-11-01T14:00", "distanceKm": 5 }
                ]
                """)
            .Good();
        Assert.Equal(Instant.FromUtc(2026, 11, 1, 6, 30), request.Cars[0].Calendar.Trips[0].Departure);
        Assert.Contains(request.Warnings, w => w.Contains("occurs twice", StringComparison.Ordinal));

        var other = RequestText.Schedule()
            .Set("asOf", "\"2026-10-31T17:30\"")
            .Set("calendar/trips", """[ { "departure": "2026-10-31T20:00", "return": "2026-11-01T01:30", "distanceKm": 5 } ]""")
            .Good();
        Assert.Equal(Instant.FromUtc(2026, 11, 1, 7, 30), other.Cars[0].Calendar.Trips[0].Return);
    }

    [Fact]
    public void Departure_ThatTheClocksSkip_IsDueWhenTheyJump()
    {
        var trip = Assert.Single(RequestText.Schedule()
            .Set("asOf", "\"2026-03-07T17:30\"")
            .Set("calendar/trips", """[ { "departure": "2026-03-08T02:30", "return": "2026-03-08T12:00", "distanceKm": 5 } ]""")
            .Good().Cars[0].Calendar.Trips);
        Assert.Equal(Instant.FromUtc(2026, 3, 8, 8, 0), trip.Departure);
        Assert.Equal(new LocalDateTime(2026, 3, 8, 3, 30), trip.ShownDeparture);
    }
}
