using NodaTime;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Core.Tests.Driving;

public sealed class VariedCalendarTests
{
    private static readonly DrivingCalendar Week = new(Enumerable.Range(0, 14).Select(day =>
    {
        var departure = Instant.FromUtc(2026, 3, 2 + day, 8, 0);
        return Trip.Plain(departure, departure + Duration.FromHours(9), Distance.FromKilometres(40), StateOfCharge.FromFraction(0.5));
    }));

    [Fact]
    public void Scaled_Factor_StretchesEveryTrip()
    {
        var scaled = Week.Scaled(1.25);

        Assert.All(scaled.Trips, t => Assert.Equal(50, t.Distance.Kilometres, 9));
        Assert.Equal(Week.Trips.Select(t => (t.Departure, t.Return, t.Target)), scaled.Trips.Select(t => (t.Departure, t.Return, t.Target)));
    }

    [Theory]
    [InlineData(0, 14)]
    [InlineData(1.0 / 7, 13)]
    [InlineData(0.5, 8)]
    public void WithMissedNights_Share_JoinsTripsOverTheStay(double share, int trips)
    {
        // Of 13 stays: none; the 7th; every second one (6).
        var missed = Week.WithMissedNights(share);

        Assert.Equal(trips, missed.Trips.Count);
        Assert.Equal(14 * 40, missed.Trips.Sum(t => t.Distance.Kilometres), 9);
        Assert.All(missed.Trips.Where(t => t.Legs.Count > 2), t =>
        {
            Assert.Equal(4, t.Legs.Count);
            Assert.Equal(Duration.FromHours(15), t.Legs[1].Stop!.Until - t.Legs[1].Stop!.From);
            Assert.Equal(0, t.Legs[1].Stop!.ChargingPower.Kilowatts);
        });
        Assert.Equal(Week.Trips[0].Departure, missed.Trips[0].Departure);
        Assert.Equal(Week.Trips[^1].Return, missed.Trips[^1].Return);
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(0.51)]
    public void WithMissedNights_OutsideItsRange_IsRefused(double share) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Week.WithMissedNights(share));
}
