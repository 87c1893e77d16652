namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>A season by billing month.</summary>
/// <param name="Name">Its name in the document.</param>
/// <param name="Months">1 to 12; each month lies in exactly one.</param>
public sealed record BillingSeason(string Name, IReadOnlyList<int> Months);

/// <summary>Which day gives a billing period its month.</summary>
public enum BillingMonthDay
{
    /// <summary>Its first.</summary>
    FirstDay,

    /// <summary>The date on which its last instant lies.</summary>
    LastDay,

    /// <summary>The date of its end, on which the meter is read.</summary>
    ReadingDate,
}
