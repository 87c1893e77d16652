namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Between which values the peak of a demand term lies: how far above what is billed anyway. [kW]</summary>
internal readonly record struct PeakRange(double From, double To);
