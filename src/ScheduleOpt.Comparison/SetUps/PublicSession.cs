namespace ScheduleOpt.Comparison.SetUps;

/// <summary>One session at a public charging place.</summary>
/// <param name="MeterKwh">Energy at the public meter. [kWh]</param>
/// <param name="Minutes">Time spent charging. [min]</param>
/// <param name="Cost">What is paid, rounded once to a hundredth. [currency]</param>
/// <param name="DetourMinutes">Time lost by going there and waiting; its value is never part of what is paid. [min]</param>
public sealed record PublicSession(double MeterKwh, double Minutes, decimal Cost, double DetourMinutes)
{
    /// <summary>What a kWh costs in this session; none without energy. [currency/kWh]</summary>
    public decimal? CostPerKwh => MeterKwh > 0 ? Cost / (decimal)MeterKwh : null;
}
