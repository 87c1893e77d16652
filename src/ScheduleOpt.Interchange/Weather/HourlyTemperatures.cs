using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Interchange.Weather;

/// <summary>Collects the hours of a weather year and tells what is missing.</summary>
internal sealed class HourlyTemperatures(string pointer)
{
    private static readonly int[] FirstDays = FirstDaysOfMonths();
    private readonly double?[] celsius = new double?[WeatherYear.Hours];
    private readonly List<Fault> faults = [];
    private int unlisted;

    /// <summary>Faults so far.</summary>
    internal IReadOnlyList<Fault> Faults => faults;

    /// <summary>Notes a fault; only the first few are kept.</summary>
    internal void Refuse(string rule, string value, int? line)
    {
        if (faults.Count < TemperatureLimits.Faults)
        {
            faults.Add(new Fault(pointer, rule, value.Length > 60 ? value[..60] + "..." : value, line));
        }
        else
        {
            unlisted++;
        }
    }

    /// <summary>Takes the temperature of an hour; 29 February is left out, as every weather year leaves it out.</summary>
    /// <param name="month">1 to 12.</param>
    /// <param name="day">From 1.</param>
    /// <param name="hour">The hour that starts then, 0 to 23.</param>
    /// <param name="value">The temperature. [degC]</param>
    /// <param name="line">The line it stands in.</param>
    internal void Take(int month, int day, int hour, double value, int line)
    {
        if (month == 2 && day == 29)
        {
            return;
        }

        if (month is < 1 or > 12 || day < 1 || day > TemperatureLimits.DaysOfMonths[month - 1] || hour is < 0 or > 23)
        {
            Refuse("Month is 1 to 12, day a day of that month, hour 0 to 23.", $"{month},{day},{hour}", line);
        }
        else if (!TemperatureLimits.Holds(value))
        {
            Refuse(
                $"An outdoor temperature lies in {TemperatureLimits.LowestC} to {TemperatureLimits.HighestC} degC.",
                FormattableString.Invariant($"{value:0.###} degC"),
                line);
        }
        else if (celsius[Index(month, day, hour)] is not null)
        {
            Refuse("Each hour stands once.", $"{month},{day},{hour}", line);
        }
        else
        {
            celsius[Index(month, day, hour)] = value;
        }
    }

    /// <summary>The weather year, or every fault.</summary>
    internal Reading<WeatherYear> Finish(string source, bool isTypical)
    {
        if (faults.Count == 0)
        {
            NameMissing();
        }

        if (unlisted > 0)
        {
            faults.Add(new Fault(pointer, "Further faults are not listed.", $"{unlisted}"));
        }

        return faults.Count > 0 ? Reading<WeatherYear>.Refused(faults) : new WeatherYear(celsius.Select(c => c!.Value), source, isTypical);
    }

    private void NameMissing()
    {
        for (var hour = 0; hour < celsius.Length; hour++)
        {
            if (celsius[hour] is null)
            {
                var first = hour;
                while (hour + 1 < celsius.Length && celsius[hour + 1] is null)
                {
                    hour++;
                }

                Refuse(
                    "A weather year holds every hour: 8,760, with 29 February or without it.",
                    first == hour ? $"missing: {Name(first)}" : $"missing: {Name(first)} to {Name(hour)}",
                    null);
            }
        }
    }

    private static string Name(int index)
    {
        var day = index / 24;
        var month = Array.FindLastIndex(FirstDays, first => first <= day);
        return $"month {month + 1} day {day - FirstDays[month] + 1} hour {index % 24}";
    }

    private static int Index(int month, int day, int hour) => ((FirstDays[month - 1] + day - 1) * 24) + hour;

    private static int[] FirstDaysOfMonths()
    {
        var first = new int[12];
        for (var month = 1; month < 12; month++)
        {
            first[month] = first[month - 1] + TemperatureLimits.DaysOfMonths[month - 1];
        }

        return first;
    }
}
