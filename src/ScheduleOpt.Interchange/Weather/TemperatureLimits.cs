namespace ScheduleOpt.Interchange.Weather;

/// <summary>What a weather document may hold.</summary>
internal static class TemperatureLimits
{
    /// <summary>The lowest outdoor temperature taken. [degC]</summary>
    internal const double LowestC = -60;

    /// <summary>The highest outdoor temperature taken. [degC]</summary>
    internal const double HighestC = 60;

    /// <summary>The longest text: three times what a year of the longest known rows takes. [characters]</summary>
    internal const int Characters = 8_388_608;

    /// <summary>The most faults that are listed.</summary>
    internal const int Faults = 20;

    /// <summary>Days of the months of a common year.</summary>
    internal static int[] DaysOfMonths { get; } = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    /// <summary>Whether a temperature may occur outdoors.</summary>
    internal static bool Holds(double celsius) => celsius is >= LowestC and <= HighestC;
}
