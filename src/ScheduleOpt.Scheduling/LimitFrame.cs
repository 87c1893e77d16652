namespace ScheduleOpt.Scheduling;

/// <summary>The energies that frame the limits of one car. [kWh]</summary>
/// <param name="Usable">Usable energy E.</param>
/// <param name="Ordinary">At the ordinary limit.</param>
/// <param name="Extended">At the extended limit.</param>
/// <param name="Minimum">At the minimum state of charge.</param>
/// <param name="Initial">Measured at the start.</param>
/// <param name="Final">To be reached at the end; none: the minimum.</param>
internal sealed record LimitFrame(double Usable, double Ordinary, double Extended, double Minimum, double Initial, double? Final);
