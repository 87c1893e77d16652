using System.Runtime.InteropServices;
using ScheduleOpt.Interchange.Meters.Series;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>One reading of a table, its time still that of the table's clock. Thirty-two bytes: there may be two million.</summary>
/// <param name="Stamp">Start or end, as labelled; midnight of its day where it counts from there. [s since 1970 on its clock]</param>
/// <param name="Clock">The clock that the stamp is of.</param>
/// <param name="Elapsed">Time since midnight, on days of 25 hours that a table counts through. [s]</param>
/// <param name="Duration">Length; zero where the row does not say. [s]</param>
/// <param name="Value">What was read. [1e-6 kWh, or 1e-6 kW]</param>
/// <param name="Quality">How good it is.</param>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct TableReading(long Stamp, StampClock Clock, int Elapsed, int Duration, long Value, ReadingQuality Quality);
