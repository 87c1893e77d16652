using NodaTime;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>A metered series as the house load of a common year: each hour in standard time, 8,760 values. [kWh at the meter]</summary>
/// <remarks>Hours that were read more than once are averaged; an hour that was not read takes the mean of the same hour one week before and after,
/// else two weeks, three, four. 29 February is left out. Weekdays are those of the metered year.</remarks>
public static class MeteredYear
{
    private const int MostWeeks = 4;

    /// <summary>The hours of the year.</summary>
    /// <param name="house">What the house took, at least 90 % of a year.</param>
    /// <param name="zone">The household's zone.</param>
    /// <param name="pointer">What a fault is told under.</param>
    public static Reading<double[]> Hourly(MeterChannel house, HouseholdZone zone, string pointer)
    {
        ArgumentNullException.ThrowIfNull(house);
        ArgumentNullException.ThrowIfNull(zone);
        var (energy, covered) = (new double[WeatherYear.Hours], new double[WeatherYear.Hours]);
        var series = house.Series;
        var minutes = (int)series.Interval.TotalMinutes;
        var steps = Math.Max(1, (int)Math.Ceiling(minutes / 60.0));
        var step = series.Interval / steps;
        for (var i = 0; i < series.Count; i++)
        {
            var kwh = series.MicroKilowattHours[i] / 1e6 / steps;
            for (var part = 0; part < steps; part++)
            {
                var at = series.Start + (series.Interval * i) + (step * part);
                if (HourOf(at, zone.Zone) is { } hour)
                {
                    energy[hour] += kwh;
                    covered[hour] += step.TotalHours;
                }
            }
        }

        var read = covered.Count(c => c > 0);
        if (read < WeatherYear.Hours * 0.9)
        {
            return Reading<double[]>.Refused(new Fault(
                pointer, "Must cover at least 90 % of the hours of a year for a house load.", $"{100.0 * read / WeatherYear.Hours:0} %"));
        }

        var hours = new double[WeatherYear.Hours];
        for (var h = 0; h < hours.Length; h++)
        {
            hours[h] = covered[h] > 0 ? energy[h] / covered[h] : Neighbours(energy, covered, h);
        }

        return hours;
    }

    private static int? HourOf(Instant at, DateTimeZone zone)
    {
        var standard = zone.GetZoneInterval(at).StandardOffset;
        var local = at.WithOffset(standard).LocalDateTime;
        if (local is { Month: 2, Day: 29 })
        {
            return null;
        }

        var day = new LocalDate(2001, local.Month, local.Day).DayOfYear - 1;
        return (day * 24) + local.Hour;
    }

    private static double Neighbours(double[] energy, double[] covered, int hour)
    {
        for (var weeks = 1; weeks <= MostWeeks; weeks++)
        {
            var shift = weeks * 7 * 24;
            int[] near = [(hour - shift + energy.Length) % energy.Length, (hour + shift) % energy.Length];
            var known = near.Where(n => covered[n] > 0).ToArray();
            if (known.Length > 0)
            {
                return known.Average(n => energy[n] / covered[n]);
            }
        }

        return 0;
    }
}
