namespace ScheduleOpt.Scheduling;

/// <summary>The optimum of steps 1 and 2, before it is made runnable.</summary>
/// <param name="Shares">For each interval, the share of it spent at full power.</param>
/// <param name="StoredKwh">Stored energy at each boundary. [kWh]</param>
/// <param name="TripShortfallKwh">For each departure. [kWh]</param>
/// <param name="TargetShortfallKwh">For each departure. [kWh]</param>
/// <param name="FinalShortfallKwh">By how much the energy asked for at the end is missed. [kWh]</param>
/// <param name="Cost">What charging costs, warming before departures and end value left out. [currency]</param>
/// <param name="Objective">The cost less the value of what is stored at the end. [currency]</param>
/// <param name="LimitReached">Whether the solver ran into its time limit and the direct sweep answered in its stead.</param>
public sealed record LeastCost(
    double[] Shares,
    double[] StoredKwh,
    double[] TripShortfallKwh,
    double[] TargetShortfallKwh,
    double FinalShortfallKwh,
    double Cost,
    double Objective,
    bool LimitReached);
