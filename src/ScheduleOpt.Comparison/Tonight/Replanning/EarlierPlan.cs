using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight.Replanning;

/// <summary>What an earlier answer said, for an answer made while the car is plugged in.</summary>
/// <param name="Windows">Its charging windows, in order; those over by now may be among them.</param>
/// <param name="KeepUnlessCheaperBy">The windows are kept unless new ones save more than this. [currency] Zero or more.</param>
/// <param name="ExpectedKwh">Stored energy that it expected for the start of the new question; none: not said. [kWh]</param>
public sealed record EarlierPlan(IReadOnlyList<ChargingWindow> Windows, decimal KeepUnlessCheaperBy, double? ExpectedKwh = null);
