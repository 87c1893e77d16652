using NodaTime;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>What a cell says about a time: a date, a time of day, or both.</summary>
/// <param name="Date">The date.</param>
/// <param name="SecondOfDay">Time of day, up to 24:00. [s]</param>
/// <param name="Offset">Offset from UTC, where it is stated.</param>
internal readonly record struct Stamp(LocalDate? Date, int? SecondOfDay, Offset? Offset)
{
    private static readonly LocalDateTime Epoch = new(1970, 1, 1, 0, 0);

    public bool HasBoth => Date is not null && SecondOfDay is not null;

    /// <summary>Seconds since 1970 on the clock that it is of.</summary>
    public long Seconds => (Period.DaysBetween(Epoch.Date, Date!.Value) * 86_400L) + (SecondOfDay ?? 0);
}
