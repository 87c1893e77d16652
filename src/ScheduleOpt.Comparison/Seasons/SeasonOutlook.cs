using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Comparison.Seasons;

/// <summary>What a supply gives a household in one quarter of the year, and how often the car must be plugged in.</summary>
/// <remarks>A mean over the months: a cold week inside is worse. The replay of the year finds the days that fall short.</remarks>
/// <param name="Months">The three months, by name: December to February, and so on, the same on both hemispheres.</param>
/// <param name="MeanC">Mean outdoor temperature of the hours at home. [degC]</param>
/// <param name="Range">Mean range added per hour at home, rated and real.</param>
/// <param name="DriveKwhPerDay">Mean energy of driving, battery side. [kWh a day]</param>
/// <param name="HomeHoursPerDay">Mean time at home. [h a day]</param>
/// <param name="Nights">Nights a week that need a plug.</param>
public sealed record SeasonOutlook(
    string Months, double MeanC, RangeAddedPerHour Range, double DriveKwhPerDay, double HomeHoursPerDay, PlugNights Nights)
{
    private static readonly string[] Names =
        ["December to February", "March to May", "June to August", "September to November"];

    /// <summary>The four quarters of a year. One without an hour at home is left out.</summary>
    /// <param name="vehicle">The car.</param>
    /// <param name="supply">The supply.</param>
    /// <param name="calendar">The trips; those that leave in the year count.</param>
    /// <param name="weather">The temperatures.</param>
    /// <param name="zone">The household's zone.</param>
    /// <param name="year">The calendar year.</param>
    public static IReadOnlyList<SeasonOutlook> Of(
        Vehicle vehicle, Supply supply, DrivingCalendar calendar, WeatherYear weather, HouseholdZone zone, int year)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(calendar);
        ArgumentNullException.ThrowIfNull(weather);
        ArgumentNullException.ThrowIfNull(zone);
        var start = zone.StartOf(new LocalDate(year, 1, 1));
        var end = zone.StartOf(new LocalDate(year + 1, 1, 1));
        var temperatures = weather.OnYear(year, zone.Zone.GetZoneInterval(start).StandardOffset);
        var trips = calendar.Within(start, end).ToArray();
        var home = new List<double>[] { [], [], [], [] };
        var days = new int[4];
        var drive = new double[4];
        for (var day = new LocalDate(year, 1, 1); day.Year == year; day = day.PlusDays(1))
        {
            days[QuarterOf(day)]++;
        }

        var next = 0;
        for (var at = start; at < end; at += Duration.FromHours(1))
        {
            while (next < trips.Length && trips[next].Return <= at)
            {
                next++;
            }

            // An hour counts as at home if its middle is.
            var middle = at + Duration.FromMinutes(30);
            if (next >= trips.Length || middle < trips[next].Departure || middle >= trips[next].Return)
            {
                home[QuarterOf(at.InZone(zone.Zone).Date)].Add(temperatures.At(at));
            }
        }

        foreach (var trip in trips.Where(t => t.Departure >= start))
        {
            drive[QuarterOf(trip.Departure.InZone(zone.Zone).Date)] += trip.Legs.Sum(
                l => vehicle.Consumption.For(l.Distance, temperatures.At(l.TemperatureAt)).KilowattHours);
        }

        return [.. Enumerable.Range(0, 4).Where(q => home[q].Count > 0).Select(q => Quarter(vehicle, supply, q, home[q], drive[q], days[q]))];
    }

    private static SeasonOutlook Quarter(Vehicle vehicle, Supply supply, int quarter, List<double> homeC, double driveKwh, int days)
    {
        var range = RangeAddedPerHour.Mean(vehicle, supply, homeC);
        var (perDay, hours) = (driveKwh / days, (double)homeC.Count / days);
        return new SeasonOutlook(
            Names[quarter], homeC.Average(), range, perDay, hours, PlugNights.Of(vehicle, perDay, range.NetKw * hours));
    }

    private static int QuarterOf(LocalDate date) => date.Month % 12 / 3;
}
