using NodaTime;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

/// <summary>A household that drives in the last weeks of the year alone, so that an optimum takes another solver seconds; invented.</summary>
/// <param name="DecemberKwh">What the house takes in December: close to where a plan changes its price.</param>
/// <param name="IsAwayAtNight">Whether the car is away at night and charges by day.</param>
internal sealed record LastWeeks(double DecemberKwh, bool IsAwayAtNight)
{
    /// <summary>Trips from the middle of November to the week before Christmas.</summary>
    public DrivingCalendar Calendar(Random random, HouseholdZone zone, LocalDate first)
    {
        var (trips, kilometres) = (new List<Trip>(), 40 + (60 * random.NextDouble()));
        for (var day = new LocalDate(first.Year, 11, 16); day < new LocalDate(first.Year, 12, 19); day = day.PlusDays(1))
        {
            if ((int)day.DayOfWeek <= 5)
            {
                var (leaves, returns) = IsAwayAtNight
                    ? (day + new LocalTime(20, random.Next(60)), day.PlusDays(1) + new LocalTime(6, random.Next(60)))
                    : (day + new LocalTime(7, random.Next(60)), day + new LocalTime(16 + random.Next(3), random.Next(60)));
                trips.Add(Trip.Plain(zone.Departure(leaves).Instant, zone.Return(returns).Instant, Distance.FromKilometres(kilometres)));
            }
        }

        return new DrivingCalendar(trips);
    }

    /// <summary>The house's hours, scaled to December.</summary>
    public HouseLoad House(Random random)
    {
        double[] hours = [.. Enumerable.Range(0, WeatherYear.Hours).Select(h => 0.3 + (0.3 * random.NextDouble()) + Math.Exp(-Math.Pow((h % 24) - 18.5, 2) / 6))];
        var december = hours[^(31 * 24)..].Sum();
        return HouseLoad.Hourly(hours.Select(h => h * DecemberKwh / december));
    }
}
