using System.Globalization;
using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.HouseLoads;

/// <summary>The load of a house without the car, on the shape of a cited year.</summary>
/// <remarks>
/// Shape: one residential year of 8,760 hourly means, 6,020 kWh, hour 0 of 1 January first: test data of the System Advisor Model, National
/// Renewable Energy Laboratory, github.com/NREL/ssc, BSD 3-Clause; see the NOTICE beside the file. Only its form is used. Its hours are
/// taken as standard time. Its weekdays are not known: a shift between its weekdays and a calendar year's is not modelled.
/// </remarks>
public static class HouseLoadShape
{
    /// <summary>Hours of a common year. [h]</summary>
    public const int Hours = 8760;

    private static readonly double[] Shape = ReadShape();

    /// <summary>How the shape is to be cited.</summary>
    public static string Source => "form of a residential year, National Renewable Energy Laboratory, NREL/ssc test data (BSD-3)";

    /// <summary>The shape scaled to a year's energy. [kWh per hour; 8,760 values]</summary>
    /// <param name="annualKwh">Energy of a common year, zero or more. [kWh]</param>
    /// <exception cref="ArgumentOutOfRangeException">The energy is negative or not finite.</exception>
    public static double[] Scale(double annualKwh)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(annualKwh);
        if (!double.IsFinite(annualKwh))
        {
            throw new ArgumentOutOfRangeException(nameof(annualKwh), annualKwh, "A year's energy must be a finite number of kWh.");
        }

        var factor = annualKwh / Shape.Sum();
        return [.. Shape.Select(kilowatts => kilowatts * factor)];
    }

    /// <summary>The shape scaled month by month. [kWh per hour; 8,760 values]</summary>
    /// <param name="monthlyKwh">Energy of the twelve calendar months of a common year, zero or more. [kWh]</param>
    /// <exception cref="ArgumentException">Not twelve values, or one that is negative or not finite.</exception>
    public static double[] ScaleMonths(IReadOnlyList<double> monthlyKwh)
    {
        ArgumentNullException.ThrowIfNull(monthlyKwh);
        if (monthlyKwh.Count != 12 || !monthlyKwh.All(k => double.IsFinite(k) && k >= 0))
        {
            throw new ArgumentException("A house load by month needs twelve finite numbers of kWh, zero or more.", nameof(monthlyKwh));
        }

        // Months of any common year.
        var first = new LocalDate(2001, 1, 1);
        var load = new List<double>(Hours);
        foreach (var kwh in monthlyKwh)
        {
            var hours = 24 * first.Calendar.GetDaysInMonth(first.Year, first.Month);
            var shape = Shape.AsSpan(load.Count, hours).ToArray();
            var factor = kwh / shape.Sum();
            load.AddRange(shape.Select(kilowatts => kilowatts * factor));
            first = first.PlusMonths(1);
        }

        return [.. load];
    }

    /// <summary>Hourly energy laid on a calendar year of a household.</summary>
    /// <param name="hourlyKwh">8,760 values in standard time, such as <see cref="Scale"/> gives. [kWh]</param>
    /// <param name="year">The calendar year.</param>
    /// <param name="zone">The household's zone.</param>
    /// <returns>Every hour from the start of the local year to its end; 29 February repeats the 28th.</returns>
    /// <exception cref="ArgumentException">Not 8,760 values.</exception>
    public static HouseLoadYear OnYear(IReadOnlyList<double> hourlyKwh, int year, HouseholdZone zone)
    {
        ArgumentNullException.ThrowIfNull(hourlyKwh);
        ArgumentNullException.ThrowIfNull(zone);
        if (hourlyKwh.Count != Hours)
        {
            throw new ArgumentException($"A house load needs {Hours} hourly values; there are {hourlyKwh.Count}.", nameof(hourlyKwh));
        }

        var (start, end) = (zone.StartOf(new LocalDate(year, 1, 1)), zone.StartOf(new LocalDate(year + 1, 1, 1)));
        var values = new double[(int)Math.Ceiling((end - start).TotalHours)];
        for (var i = 0; i < values.Length; i++)
        {
            var instant = start + Duration.FromHours(i);
            var standard = instant.WithOffset(zone.Zone.GetZoneInterval(instant).StandardOffset).LocalDateTime;
            values[i] = hourlyKwh[HourOfCommonYear(standard)];
        }

        return new HouseLoadYear(start, values);
    }

    private static int HourOfCommonYear(LocalDateTime standard)
    {
        var day = standard.DayOfYear - 1;
        var past28February = CalendarSystem.Iso.IsLeapYear(standard.Year) && day >= 31 + 28;
        return ((past28February ? day - 1 : day) * 24) + standard.Hour;
    }

    private static double[] ReadShape()
    {
        using var stream = typeof(HouseLoadShape).Assembly.GetManifestResourceStream("HouseLoads/load_residential_hourly.csv")!;
        using var reader = new StreamReader(stream);
        return
        [
            .. reader.ReadToEnd()
                .Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
                .Where(line => line[0] != '#')
                .Select(line => double.Parse(line, NumberStyles.Float, CultureInfo.InvariantCulture)),
        ];
    }
}
