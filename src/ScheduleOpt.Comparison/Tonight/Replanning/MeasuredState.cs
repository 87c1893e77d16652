namespace ScheduleOpt.Comparison.Tonight.Replanning;

/// <summary>From which stored energy to plan when a car in mid-window reports its state of charge.</summary>
public static class MeasuredState
{
    /// <summary>Up to this share of the usable energy a report and an expectation are taken to agree: cars report whole per cent (common practice, no source).</summary>
    public const double AgreesWithin = 0.01;

    /// <summary>The expectation where the report agrees with it, otherwise the report: so that rounding of the report does not move windows. [kWh]</summary>
    /// <param name="reportedKwh">What the car reports. [kWh]</param>
    /// <param name="expectedKwh">What the earlier plan expected for this moment; none: not known. [kWh]</param>
    /// <param name="usableKwh">Usable energy. [kWh]</param>
    public static double ToPlanFrom(double reportedKwh, double? expectedKwh, double usableKwh) =>
        expectedKwh is { } expected && Math.Abs(expected - reportedKwh) <= (AgreesWithin * usableKwh) + 1e-9 ? expected : reportedKwh;
}
