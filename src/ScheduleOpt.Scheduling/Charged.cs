namespace ScheduleOpt.Scheduling;

/// <summary>What charging for a while comes to.</summary>
/// <param name="StoredKwh">Stored energy at the end. [kWh]</param>
/// <param name="WallKwh">Energy taken at the wall. [kWh]</param>
/// <param name="OnHours">Time for which the car took power; shorter than the while where it became full. [h]</param>
public readonly record struct Charged(double StoredKwh, double WallKwh, double OnHours);
