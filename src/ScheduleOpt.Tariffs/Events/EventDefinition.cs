using NodaTime;

namespace ScheduleOpt.Tariffs.Events;

/// <summary>A kind of event that a utility calls: critical peaks, hours that earn a rebate.</summary>
/// <param name="Name">Its name in the document.</param>
public sealed record EventDefinition(string Name)
{
    /// <summary>The calendar in which its hours take a period; none for the plan's own.</summary>
    public string? Calendar { get; init; }

    /// <summary>The period that its hours take; none where the event only earns rebates.</summary>
    public string? Period { get; init; }

    /// <summary>When it may be called; none for any time.</summary>
    public EventHours? Allowed { get; init; }

    /// <summary>How often it may be called.</summary>
    public EventLimits Limits { get; init; } = new();

    /// <summary>When it is announced, in words; may be empty.</summary>
    public string Notice { get; init; } = "";

    /// <summary>Events that the document lists.</summary>
    public IReadOnlyList<CalledEvent> Past { get; init; } = [];

    /// <summary>Where the document says so.</summary>
    public DocumentPlace? Place { get; init; }
}

/// <summary>When an event may be called: wholly within one window of one day that is allowed.</summary>
/// <param name="Seasons">Seasons of its day; empty for all.</param>
/// <param name="DayTypes">Day types of its day; empty for all.</param>
/// <param name="Windows">Clock minutes, from included to excluded; empty for the whole day.</param>
/// <param name="NotOnHolidays">Whether observed holidays are left out.</param>
/// <param name="NotOn">Days of every year that are left out.</param>
public sealed record EventHours(
    IReadOnlyList<string> Seasons, IReadOnlyList<string> DayTypes, IReadOnlyList<(int FromMinute, int ToMinute)> Windows, bool NotOnHolidays, IReadOnlyList<AnnualDate> NotOn);

/// <summary>How often an event may be called; none for no limit.</summary>
/// <param name="HoursPerEvent">Longest event. [h]</param>
/// <param name="EventsPerDay">Most events that begin on one day.</param>
/// <param name="HoursPerYear">Most hours that begin in one calendar year. [h]</param>
/// <param name="EventsPerYear">Most events that begin in one calendar year.</param>
public sealed record EventLimits(decimal? HoursPerEvent = null, int? EventsPerDay = null, decimal? HoursPerYear = null, int? EventsPerYear = null);

/// <summary>An event that was called.</summary>
/// <param name="From">Local time of its start, included.</param>
/// <param name="To">Local time of its end, excluded.</param>
/// <param name="BaselineKwh">The utility's own baseline; none to work it out. [kWh]</param>
/// <param name="BaselineAdjustmentKwh">Added to the baseline. [kWh]</param>
public sealed record CalledEvent(LocalDateTime From, LocalDateTime To, decimal? BaselineKwh = null, decimal BaselineAdjustmentKwh = 0)
{
    internal Instant Start(DateTimeZone zone) => EventClock.At(From, zone);

    internal Instant End(DateTimeZone zone) => EventClock.At(To, zone);
}
