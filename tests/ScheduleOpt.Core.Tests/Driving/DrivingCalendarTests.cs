using NodaTime;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Core.Tests.Driving;

public sealed class DrivingCalendarTests
{
    private static readonly Instant Eight = Instant.FromUtc(2026, 1, 14, 8, 0);

    [Fact]
    public void Plain_Trip_HasTwoHalvesWithTheTemperaturesOfItsEnds()
    {
        var trip = Trip.Plain(Eight, Eight + Duration.FromHours(10), Distance.FromKilometres(64));

        Assert.Equal(64, trip.Distance.Kilometres, 12);
        Assert.Equal([32.0, 32.0], trip.Legs.Select(l => l.Distance.Kilometres));
        Assert.Equal([trip.Departure, trip.Return], trip.Legs.Select(l => l.TemperatureAt));
        Assert.Equal([Eight + Duration.FromHours(5), trip.Return], trip.Legs.Select(l => l.End));
    }

    [Fact]
    public void Calendar_TripsInAnyOrder_AreSorted()
    {
        var calendar = new DrivingCalendar([At(48), At(0), At(24)]);

        Assert.Equal([0.0, 24, 48], calendar.Trips.Select(t => (t.Departure - Eight).TotalHours));
    }

    [Fact]
    public void Calendar_TripsThatOverlap_AreRefused() => Assert.Throws<ArgumentException>(() => new DrivingCalendar([At(0), At(1)]));

    [Fact]
    public void Calendar_TripsBackToBack_AreTaken() => Assert.Equal(2, new DrivingCalendar([At(0), At(2)]).Trips.Count);

    [Fact]
    public void Calendar_TripWithoutLength_IsRefused() =>
        Assert.Throws<ArgumentException>(() => new DrivingCalendar([Trip.Plain(Eight, Eight, Distance.Zero)]));

    [Fact]
    public void Within_Span_HoldsTripsUnderWayAndLeavesOutThoseThatTouch()
    {
        var calendar = new DrivingCalendar([At(0), At(2), At(4), At(6)]);

        var within = calendar.Within(Eight + Duration.FromHours(2), Eight + Duration.FromHours(6));

        Assert.Equal([2.0, 4], within.Select(t => (t.Departure - Eight).TotalHours));
        Assert.Single(calendar.Within(Eight + Duration.FromHours(1), Eight + Duration.FromHours(2)));
    }

    private static Trip At(int hours) =>
        Trip.Plain(Eight + Duration.FromHours(hours), Eight + Duration.FromHours(hours + 2), Distance.FromKilometres(10));
}
