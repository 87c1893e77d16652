using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>Warming of battery and cabin just before a departure, with energy from the wall instead of the battery.</summary>
/// <param name="Length">How long before the departure it begins.</param>
/// <param name="WallKwh">Energy at the wall. [kWh] What the supply can't give in that time is left out.</param>
/// <param name="SparedKwh">Energy that the first leg's driving needs less for it, at most what it needs. [kWh]</param>
/// <param name="BelowC">It runs where the outdoor temperature at the departure is below this. [degC]</param>
public sealed record WarmUp(Duration Length, double WallKwh, double SparedKwh, double BelowC);
