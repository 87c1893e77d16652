using NodaTime;

namespace ScheduleOpt.Core.Weather;

/// <summary>One year of hourly outdoor temperatures in standard time: 8,760 values, no 29 February. [degC]</summary>
public sealed class WeatherYear
{
    /// <summary>Hours of a common year. [h]</summary>
    public const int Hours = 8760;

    private readonly double[] celsius;

    /// <summary>Makes a weather year.</summary>
    /// <param name="celsius">8,760 finite values; the first is the hour that starts at 00:00 on 1 January, standard time. [degC]</param>
    /// <param name="source">Where the temperatures come from, as it is to be cited.</param>
    /// <param name="isTypical">Whether it is a typical year, made of months of several years: it has no record cold.</param>
    /// <exception cref="ArgumentException">Not 8,760 finite values.</exception>
    public WeatherYear(IEnumerable<double> celsius, string source, bool isTypical)
    {
        this.celsius = [.. celsius];
        if (this.celsius.Length != Hours || !this.celsius.All(double.IsFinite))
        {
            throw new ArgumentException($"A weather year needs {Hours} finite temperatures; there are {this.celsius.Length}.", nameof(celsius));
        }

        Source = source;
        IsTypical = isTypical;
    }

    /// <summary>Values in order. [degC]</summary>
    public IReadOnlyList<double> Celsius => celsius;

    /// <summary>Where the temperatures come from, as it is to be cited.</summary>
    public string Source { get; }

    /// <summary>Whether it is a typical year, made of months of several years: it has no record cold.</summary>
    public bool IsTypical { get; }

    /// <summary>The temperatures laid on a calendar year; 29 February repeats the 28th, and so does the last day at the year's end where
    /// the household's clock runs behind.</summary>
    /// <param name="year">The calendar year.</param>
    /// <param name="standard">The offset of standard time in which the hours are counted.</param>
    public TemperatureForecast OnYear(int year, Offset standard)
    {
        const int firstHourOfMarch = (31 + 28) * 24;
        IEnumerable<double> values = CalendarSystem.Iso.IsLeapYear(year)
            ? celsius.Take(firstHourOfMarch).Concat(celsius.Skip(firstHourOfMarch - 24))
            : celsius;
        var start = new LocalDateTime(year, 1, 1, 0, 0).WithOffset(standard).ToInstant();
        return new TemperatureForecast(start, Duration.FromHours(1), values);
    }
}
