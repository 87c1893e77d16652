namespace ScheduleOpt.Core.Homes;

/// <summary>The rule that gives the current a circuit may carry for hours. Charging is a continuous load.</summary>
public enum ContinuousRatingRule
{
    /// <summary>Region unknown: 80 % of the breaker, the most careful of the common rules.</summary>
    Unknown,

    /// <summary>80 % of the breaker. NFPA 70 (NEC) 2023, sections 625.42 and 210.20(A).</summary>
    NecContinuousLoad,

    /// <summary>The rated current of the dedicated circuit as the installer states it; never above the breaker.</summary>
    /// <remarks>IEC 60364-7-722: each connecting point on its own final circuit.</remarks>
    DedicatedCircuit,

    /// <summary>A domestic socket: 10 A unless a lower current, down to 8 A, is stated.</summary>
    /// <remarks>CEN/CENELEC focus group on European EV charging, section 7.6.5: 8 to 10 A is the prudent limit.</remarks>
    DomesticSocket,
}
