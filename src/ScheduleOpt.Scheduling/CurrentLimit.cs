using NodaTime;

namespace ScheduleOpt.Scheduling;

/// <summary>A limit of the charging current for a while: a circuit that others use then, or a household's wish for quiet.</summary>
/// <param name="Hours">When it holds.</param>
/// <param name="MostA">The most current. [A, per phase] Less than the car's minimum: it does not charge.</param>
public readonly record struct CurrentLimit(Interval Hours, double MostA);
