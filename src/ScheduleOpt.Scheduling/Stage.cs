namespace ScheduleOpt.Scheduling;

/// <summary>A run of intervals inside which no bound on the stored energy can bind: only its end counts.</summary>
/// <param name="FirstInterval">Index of its first interval.</param>
/// <param name="EndBoundary">Index of the boundary at its end.</param>
/// <param name="FirstColumn">Index of its first column.</param>
/// <param name="EndColumn">Index after its last column.</param>
/// <param name="DriveKwh">Energy driven in it; above 0 only on the road. [kWh]</param>
/// <param name="Trip">Index of the departure whose trip it belongs to; -1 at home before the first.</param>
internal readonly record struct Stage(int FirstInterval, int EndBoundary, int FirstColumn, int EndColumn, double DriveKwh, int Trip);
