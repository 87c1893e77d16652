namespace ScheduleOpt.Scheduling.Windows;

/// <summary>The ageing price on dwell, used only to choose among schedules of equal cost. [currency; never shown as money]</summary>
/// <remarks>
/// Per hour: w1 * max(0, e - 0.60 E) + w2 * max(0, e - 0.90 E), and nothing below 5 degC. w1, w2 and their sources: <see cref="AgeingPrice"/>.
/// </remarks>
internal static class Dwell
{
    private const double HighFrom = 0.60;
    private const double VeryHighFrom = 0.90;
    private const double NoAgeingBelowC = 5;

    /// <summary>For a while at a mean stored energy.</summary>
    public static double Price(ChargingProblem problem, int interval, double meanKwh, double hours) =>
        problem.TemperatureC[interval] < NoAgeingBelowC
            ? 0
            : hours * ((problem.Ageing.HighPerKwhHour * Math.Max(0, meanKwh - (HighFrom * problem.UsableKwh)))
                + (problem.Ageing.VeryHighPerKwhHour * Math.Max(0, meanKwh - (VeryHighFrom * problem.UsableKwh))));
}
