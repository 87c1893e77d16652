namespace ScheduleOpt.Scheduling;

/// <summary>The ageing price on dwell, used only to choose among schedules of equal cost.</summary>
/// <param name="HighPerKwhHour">w1, per kWh above 60 % of the usable energy and hour. [currency/(kWh h)]</param>
/// <param name="VeryHighPerKwhHour">w2, per kWh above 90 % of the usable energy and hour. [currency/(kWh h)]</param>
public sealed record AgeingPrice(double HighPerKwhHour, double VeryHighPerKwhHour)
{
    /// <summary>w1 from the calendar-ageing rates of NREL BLAST-Lite (2025, BSD-3); w2 a weight of policy (common practice, no source).</summary>
    public static AgeingPrice Default { get; } = new(0.0005, 0.001);
}
