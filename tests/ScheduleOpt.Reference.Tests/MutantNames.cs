namespace ScheduleOpt.Reference.Tests;

/// <summary>The deliberate mistakes that tests/reference/mutants.py knows; a test holds the two lists together.</summary>
internal static class MutantNames
{
    public static IReadOnlyList<string> All { get; } =
    [
        "overheadDropped", "heatingDropped", "continuousRatingIgnored", "departureOneIntervalEarly", "gapDepartureShifted",
        "ambiguousDepartureSecond", "ambiguousReturnFirst", "tripShortfallUnlimited", "tripShortfallIgnored",
        "targetShortfallIgnored", "targetIgnored", "shortfallOrderIgnored", "confidenceDropped", "returnTemperatureIgnored",
        "endValueDropped", "secondDepartureIgnored", "minimumIgnored", "ordinaryLimitIgnored", "marginDropped",
        "coldMarginIgnored", "carryDropped", "stopChargingIgnored", "stopShareIgnored", "temperatureAtIntervalEnd",
        "priceOneIntervalLate", "lossesEarnNegativePrice",
    ];
}
