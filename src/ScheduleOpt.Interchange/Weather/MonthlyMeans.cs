using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Interchange.Weather;

/// <summary>Makes a weather year of twelve mean daily lows and twelve mean daily highs.</summary>
/// <remarks>
/// Our own method (common practice, no source). Low and daily range of each day run in straight lines from the border of a month to its
/// middle and on to the next border; at a border stands the mean of its two months, in the middle what makes the mean over the month's
/// days the mean given, exactly. Within a day the temperature climbs from the low at 06:00 to the high at 15:00 along half a cosine, and
/// falls along another to the next day's low. Days are alike but for the season: such a year has no cold spell, and its source says so.
/// </remarks>
public static class MonthlyMeans
{
    /// <summary>The hour at which a day is coldest.</summary>
    public const int ColdestHour = 6;

    /// <summary>The hour at which a day is warmest.</summary>
    public const int WarmestHour = 15;

    /// <summary>Makes the year.</summary>
    /// <param name="lowC">Mean daily low of January to December. [degC]</param>
    /// <param name="highC">Mean daily high of January to December; none below its month's low. [degC]</param>
    /// <param name="pointer">The JSON pointer that faults begin with.</param>
    public static Reading<WeatherYear> ToWeatherYear(
        IReadOnlyList<double> lowC,
        IReadOnlyList<double> highC,
        string pointer = "#/weather/monthly")
    {
        ArgumentNullException.ThrowIfNull(lowC);
        ArgumentNullException.ThrowIfNull(highC);
        var faults = new List<Fault>();
        Check(lowC, $"{pointer}/low", faults);
        Check(highC, $"{pointer}/high", faults);
        for (var month = 0; faults.Count == 0 && month < 12; month++)
        {
            if (highC[month] < lowC[month])
            {
                faults.Add(new Fault(
                    $"{pointer}/high/{month}",
                    "A month's mean high is not below its mean low.",
                    FormattableString.Invariant($"{highC[month]} below {lowC[month]} degC")));
            }
        }

        if (faults.Count > 0)
        {
            return Reading<WeatherYear>.Refused(faults);
        }

        var (lows, spans) = (Daily(lowC), Daily([.. highC.Zip(lowC, (high, low) => high - low)]));
        return new WeatherYear(
            Enumerable.Range(0, WeatherYear.Hours).Select(hour => At(hour, lows, spans)),
            "made of monthly mean lows and highs: no cold spell in it",
            isTypical: true);
    }

    private static void Check(IReadOnlyList<double> values, string pointer, List<Fault> faults)
    {
        if (values.Count != 12)
        {
            faults.Add(new Fault(pointer, "Monthly means are twelve numbers, January first.", $"{values.Count} numbers"));
            return;
        }

        for (var month = 0; month < 12; month++)
        {
            if (!TemperatureLimits.Holds(values[month]))
            {
                faults.Add(new Fault(
                    $"{pointer}/{month}",
                    $"An outdoor temperature lies in {TemperatureLimits.LowestC} to {TemperatureLimits.HighestC} degC.",
                    FormattableString.Invariant($"{values[month]} degC")));
            }
        }
    }

    // 365 values whose mean over each month is the month's: border to middle to border, the middle's height set by the month's mean.
    private static double[] Daily(IReadOnlyList<double> months)
    {
        var days = new List<double>(365);
        for (var month = 0; month < 12; month++)
        {
            var count = TemperatureLimits.DaysOfMonths[month];
            var left = (months[(month + 11) % 12] + months[month]) / 2;
            var right = (months[month] + months[(month + 1) % 12]) / 2;
            var towards = Enumerable.Range(0, count).Select(day => (day + 0.5) / count).ToArray();
            var middleWeights = towards.Select(t => 1 - Math.Abs((2 * t) - 1)).ToArray();
            var borders = towards.Select(t => t < 0.5 ? left * (1 - (2 * t)) : right * ((2 * t) - 1)).ToArray();
            var middle = ((months[month] * count) - borders.Sum()) / middleWeights.Sum();
            days.AddRange(borders.Zip(middleWeights, (border, weight) => border + (weight * middle)));
        }

        return [.. days];
    }

    private static double At(int hourOfYear, double[] lows, double[] spans)
    {
        var (day, hour) = (hourOfYear / 24, hourOfYear % 24);
        double Low(int d) => lows[(d + 365) % 365];
        double High(int d) => Low(d) + spans[(d + 365) % 365];

        var fall = 24.0 - (WarmestHour - ColdestHour);
        var (start, end, along) = hour < ColdestHour ? (High(day - 1), Low(day), (hour + 24 - WarmestHour) / fall)
            : hour <= WarmestHour ? (Low(day), High(day), (hour - ColdestHour) / (double)(WarmestHour - ColdestHour))
            : (High(day), Low(day + 1), (hour - WarmestHour) / fall);
        return start + ((end - start) * (1 - Math.Cos(Math.PI * along)) / 2);
    }
}
