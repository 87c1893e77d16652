using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Comparison.Year;

/// <summary>What the house uses without the car, over a year. [kWh at the meter]</summary>
public sealed class HouseLoad
{
    private const int FirstHourOfMarch = (31 + 28) * 24;
    private readonly double[] kwh;
    private readonly bool hourly;

    private HouseLoad(IEnumerable<double> kwh, bool hourly)
    {
        this.kwh = [.. kwh];
        this.hourly = hourly;
        if (!this.kwh.All(k => double.IsFinite(k) && k >= 0))
        {
            throw new ArgumentException("Every value of a house load must be zero or more and finite.", nameof(kwh));
        }
    }

    /// <summary>An hourly year in standard time, like a weather year.</summary>
    /// <param name="kwh">8,760 values, zero or more; the first is the hour that starts at 00:00 on 1 January, standard time. 29 February
    /// repeats the 28th. [kWh]</param>
    /// <exception cref="ArgumentException">Not 8,760 values, or one that is negative or not finite.</exception>
    public static HouseLoad Hourly(IEnumerable<double> kwh)
    {
        var load = new HouseLoad(kwh, hourly: true);
        return load.kwh.Length == WeatherYear.Hours
            ? load
            : throw new ArgumentException(
                $"An hourly house load needs {WeatherYear.Hours} values; there are {load.kwh.Length}.", nameof(kwh));
    }

    /// <summary>One value for each metering interval of the very year that is compared.</summary>
    /// <param name="kwh">Zero or more; as many as the year has grid steps. [kWh]</param>
    /// <exception cref="ArgumentException">A value that is negative or not finite.</exception>
    public static HouseLoad PerInterval(IEnumerable<double> kwh) => new(kwh, hourly: false);

    /// <summary>The load in the metering intervals of a year. [kWh]</summary>
    /// <exception cref="ArgumentException">The load was given per interval and has another number of them.</exception>
    internal double[] On(YearSpan span)
    {
        if (!hourly)
        {
            return kwh.Length == span.Count
                ? kwh
                : throw new ArgumentException($"The house load has {kwh.Length} values; the year has {span.Count} intervals.");
        }

        var values = new double[span.Count];
        var share = span.Step.TotalHours;
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = share * kwh[HourOf(span, (span.StartOf(i) - span.StandardStart).TotalHours)];
        }

        return values;
    }

    /// <summary>The hour of the load that holds; where daylight time reaches over the year's end, it wraps round.</summary>
    private static int HourOf(YearSpan span, double elapsed)
    {
        var hour = (int)Math.Floor(elapsed);
        var hours = span.IsLeap ? WeatherYear.Hours + 24 : WeatherYear.Hours;
        hour = ((hour % hours) + hours) % hours;
        return span.IsLeap && hour >= FirstHourOfMarch ? hour - 24 : hour;
    }
}
