using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Core.Tests.Time;

/// <summary>New York 2026: clocks forward on 8 March (02:00 EST = 07:00Z), back on 1 November (02:00 EDT = 06:00Z).</summary>
public sealed class HouseholdZoneTests
{
    private static readonly HouseholdZone NewYork = new(DateTimeZoneProviders.Tzdb["America/New_York"]);

    [Fact]
    public void Departure_Ordinary_IsItself()
    {
        var moment = NewYork.Departure(new LocalDateTime(2026, 1, 14, 7, 10));

        Assert.Equal(new LocalMoment(Instant.FromUtc(2026, 1, 14, 12, 10), new LocalDateTime(2026, 1, 14, 7, 10), LocalReading.Unique), moment);
    }

    [Fact]
    public void Departure_InTheGap_IsDueWhenTheClocksJump() =>
        Assert.Equal(
            new LocalMoment(Instant.FromUtc(2026, 3, 8, 7, 0), new LocalDateTime(2026, 3, 8, 3, 30), LocalReading.Skipped),
            NewYork.Departure(new LocalDateTime(2026, 3, 8, 2, 30)));

    [Fact]
    public void Return_InTheGap_IsShiftedForward() =>
        Assert.Equal(
            new LocalMoment(Instant.FromUtc(2026, 3, 8, 7, 30), new LocalDateTime(2026, 3, 8, 3, 30), LocalReading.Skipped),
            NewYork.Return(new LocalDateTime(2026, 3, 8, 2, 30)));

    [Fact]
    public void Departure_Twice_IsTheFirst() =>
        Assert.Equal(
            new LocalMoment(Instant.FromUtc(2026, 11, 1, 5, 30), new LocalDateTime(2026, 11, 1, 1, 30), LocalReading.FirstOfTwo),
            NewYork.Departure(new LocalDateTime(2026, 11, 1, 1, 30)));

    [Fact]
    public void Return_Twice_IsTheSecond() =>
        Assert.Equal(
            new LocalMoment(Instant.FromUtc(2026, 11, 1, 6, 30), new LocalDateTime(2026, 11, 1, 1, 30), LocalReading.SecondOfTwo),
            NewYork.Return(new LocalDateTime(2026, 11, 1, 1, 30)));

    [Theory]
    [InlineData(2026, 3, 8, 23)]
    [InlineData(2026, 11, 1, 25)]
    [InlineData(2026, 7, 4, 24)]
    public void StartOf_DaysOfTheChange_Are23And25HoursApart(int year, int month, int day, int hours)
    {
        var date = new LocalDate(year, month, day);

        Assert.Equal(Duration.FromHours(hours), NewYork.StartOf(date.PlusDays(1)) - NewYork.StartOf(date));
    }

    [Fact]
    public void StartOf_DayWhoseMidnightIsSkipped_IsItsFirstInstant()
    {
        // Sao Paulo, 4 November 2018: clocks forward at midnight, 00:00 -03 to 01:00 -02.
        var zone = new HouseholdZone(DateTimeZoneProviders.Tzdb["America/Sao_Paulo"]);

        Assert.Equal(Instant.FromUtc(2018, 11, 4, 3, 0), zone.StartOf(new LocalDate(2018, 11, 4)));
    }
}
