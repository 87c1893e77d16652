using NodaTime;
using ScheduleOpt.Interchange.HouseLoads;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>Turns a metered year into the house load of a comparison.</summary>
public static class MeteredHouseLoad
{
    private const int Hours = HouseLoadShape.Hours, Week = 7 * 24, Weeks = 4;

    /// <summary>Hourly energy of a common year in standard time. Hours that the series has in several years are averaged; hours that it lacks
    /// are the mean of the same hour in the nearest weeks. 29 February is left out. [kWh; 8,760 values, hour 0 of 1 January first]</summary>
    /// <param name="series">At least 90 % of a year, in intervals of at most an hour.</param>
    /// <param name="zone">The household's zone.</param>
    public static Reading<double[]> Hourly(MeteredSeries series, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(series);
        ArgumentNullException.ThrowIfNull(zone);
        if (series.Interval > Duration.FromHours(1) || Duration.FromHours(1).TotalMinutes % series.Interval.TotalMinutes != 0)
        {
            return Refused("A house load needs readings of an hour or a whole part of one.", $"{series.Interval.TotalMinutes} min");
        }

        var (sums, counts) = (new double[Hours], new int[Hours]);
        var perHour = (int)(60 / series.Interval.TotalMinutes);
        for (var i = 0; i < series.Count; i++)
        {
            var instant = series.Start + (series.Interval * i);
            if (HourOf(instant.WithOffset(zone.GetZoneInterval(instant).StandardOffset).LocalDateTime) is { } hour)
            {
                sums[hour] += series.MicroKilowattHours[i] / (double)MeteredSeries.UnitsPerKilowattHour;
                counts[hour]++;
            }
        }

        var known = counts.Count(c => c > 0);
        if (known < 0.9 * Hours)
        {
            return Refused("A house load needs readings of at least 90 % of a year.", $"{known} of {Hours} hours");
        }

        var means = Enumerable.Range(0, Hours).Select(h => counts[h] > 0 ? sums[h] / counts[h] * perHour : double.NaN).ToArray();
        var filled = Enumerable.Range(0, Hours).Select(h => double.IsNaN(means[h]) ? Neighbours(means, h) : means[h]).ToArray();
        return Array.Exists(filled, double.IsNaN)
            ? Refused("A missing hour needs one that was read in the four weeks before or after.", $"{filled.Count(double.IsNaN)} hours")
            : filled;
    }

    private static double Neighbours(double[] means, int hour)
    {
        for (var week = 1; week <= Weeks; week++)
        {
            var near = new[] { hour - (week * Week), hour + (week * Week) }.Select(h => means[(h + Hours) % Hours]).Where(m => !double.IsNaN(m)).ToArray();
            if (near.Length > 0)
            {
                return near.Average();
            }
        }

        return double.NaN;
    }

    private static int? HourOf(LocalDateTime standard)
    {
        if (standard is { Month: 2, Day: 29 })
        {
            return null;
        }

        var day = standard.DayOfYear - 1;
        return ((CalendarSystem.Iso.IsLeapYear(standard.Year) && standard.Month > 2 ? day - 1 : day) * 24) + standard.Hour;
    }

    private static Reading<double[]> Refused(string rule, string value) => Reading<double[]>.Refused(new Fault("#", rule, value));
}
