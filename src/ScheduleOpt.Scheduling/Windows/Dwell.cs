namespace ScheduleOpt.Scheduling.Windows;

/// <summary>The ageing price on dwell, used only to choose among schedules of equal cost. [currency; never shown as money]</summary>
/// <remarks>
/// Per hour: w1 * max(0, e - 0.60 E) + w2 * max(0, e - 0.90 E), and nothing below 5 degC. w1 from the calendar-ageing rates of NREL
/// BLAST-Lite (2025, BSD-3) at 20 degC, 60 kWh, 139 per kWh of pack (US DOE, 2023), 30 % fade worn out: 0.0002 to 0.001 per kWh and hour. w2 is
/// a weight of policy, 'not above 90 % unless driving soon' (common practice, no source).
/// </remarks>
internal static class Dwell
{
    private const double HighFrom = 0.60;
    private const double VeryHighFrom = 0.90;
    private const double HighPerKwhHour = 0.0005;
    private const double VeryHighPerKwhHour = 0.001;
    private const double NoAgeingBelowC = 5;

    /// <summary>For a while at a mean stored energy.</summary>
    public static double Price(ChargingProblem problem, int interval, double meanKwh, double hours) =>
        problem.TemperatureC[interval] < NoAgeingBelowC
            ? 0
            : hours * ((HighPerKwhHour * Math.Max(0, meanKwh - (HighFrom * problem.UsableKwh)))
                + (VeryHighPerKwhHour * Math.Max(0, meanKwh - (VeryHighFrom * problem.UsableKwh))));
}
