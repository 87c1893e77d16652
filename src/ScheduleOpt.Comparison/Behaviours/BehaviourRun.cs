using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>What a behaviour does to one problem.</summary>
/// <param name="Shares">The share of each interval in which the car charges, in [0, 1].</param>
/// <param name="Replay">Energies and shortfalls that follow.</param>
public sealed record BehaviourRun(double[] Shares, ReplayResult Replay);
