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

    /// <summary>Those of houses: whatever couples charges.</summary>
    public static IReadOnlyList<string> OfHouses { get; } =
    [
        "demandWindowShifted", "averagingLengthWrong", "clockChangeInDemandIgnored", "demandOfCarAlone", "expectedPeakIgnored", "demandSoFarIgnored", "ratchetIgnored",
        "exportAtImportPrice", "exportCreditDropped", "solarDropped", "houseLoadDropped", "blockUseSoFarIgnored", "blocksIgnored",
        "minimumBillIgnored", "carbonDropped", "importLimitIgnored", "circuitLimitPerCar", "secondCarDriveDropped", "carsOneAfterTheOther",
        "overheadDroppedWhenAdjustable",
    ];
}
