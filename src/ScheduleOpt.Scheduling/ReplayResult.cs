namespace ScheduleOpt.Scheduling;

/// <summary>What happens when a schedule meets the full physics.</summary>
/// <param name="StoredKwh">Stored energy at each boundary. [kWh]</param>
/// <param name="WallKwh">Energy taken at the meter in each interval, home or stop, warming before departures included. [kWh]</param>
/// <param name="OnHours">Time for which the car charged in each interval, warming left out. [h]</param>
/// <param name="TripShortfallKwh">For each departure, the energy that its trip needed and the battery couldn't give. [kWh]</param>
/// <param name="TargetShortfallKwh">For each departure, by how much its wish was missed. [kWh]</param>
public sealed record ReplayResult(
    double[] StoredKwh, double[] WallKwh, double[] OnHours, double[] TripShortfallKwh, double[] TargetShortfallKwh)
{
    /// <summary>What the energy taken costs at the problem's prices. [currency]</summary>
    public double CostAt(ChargingProblem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var sum = 0.0;
        for (var i = 0; i < WallKwh.Length; i++)
        {
            sum += WallKwh[i] * problem.Price[i];
        }

        return sum;
    }
}
