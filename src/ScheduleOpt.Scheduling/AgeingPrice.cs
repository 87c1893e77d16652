namespace ScheduleOpt.Scheduling;

/// <summary>The ageing price on dwell, used only to choose among schedules of equal cost.</summary>
/// <remarks>
/// w1 from the calendar-ageing rates of NREL BLAST-Lite (2025, BSD-3) at 20 degC for a battery of 60 kWh, 139 per kWh of pack (US DOE, 2023), worn out at
/// 30 % fade: 90 % against 60 % costs 0.004 to 0.017 an hour, over 18 kWh 0.0002 to 0.001 per kWh and hour. w2 is a weight of policy, 'not above 90 %
/// unless driving soon' (common practice, no source): the rates show a high plateau from 80 %, not a new rise at 90 %.
/// </remarks>
/// <param name="HighPerKwhHour">w1, per kWh above 60 % of the usable energy and hour. [currency/(kWh h)] Zero or more.</param>
/// <param name="VeryHighPerKwhHour">w2, per kWh above 90 % of the usable energy and hour. [currency/(kWh h)] Zero or more.</param>
public sealed record AgeingPrice(double HighPerKwhHour, double VeryHighPerKwhHour)
{
    private const double PolicyPerKwhHour = 0.001;

    /// <summary>For a battery of unknown chemistry: w1 = 0.0005.</summary>
    public static AgeingPrice Default { get; } = new(0.0005, PolicyPerKwhHour);

    /// <summary>For lithium iron phosphate (LFP): w1 = 0.0002.</summary>
    public static AgeingPrice LithiumIronPhosphate { get; } = new(0.0002, PolicyPerKwhHour);

    /// <summary>For nickel manganese cobalt oxide (NMC): w1 = 0.0006.</summary>
    public static AgeingPrice NickelManganeseCobalt { get; } = new(0.0006, PolicyPerKwhHour);

    /// <summary>For nickel cobalt aluminium oxide (NCA): w1 = 0.0009.</summary>
    public static AgeingPrice NickelCobaltAluminium { get; } = new(0.0009, PolicyPerKwhHour);
}
