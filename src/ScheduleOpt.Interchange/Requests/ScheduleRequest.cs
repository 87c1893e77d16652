using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Interchange.Calendars;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A question about the coming nights, read and checked: the body of <c>POST /v1/schedules</c>.</summary>
public sealed record ScheduleRequest
{
    /// <summary>The instant of the question; the only clock the answer knows.</summary>
    public required Instant AsOf { get; init; }

    /// <summary>The household's zone.</summary>
    public required HouseholdZone Zone { get; init; }

    /// <summary>The car.</summary>
    public required Vehicle Vehicle { get; init; }

    /// <summary>The supply at home.</summary>
    public required Supply Supply { get; init; }

    /// <summary>When the car is plugged in, and with how much energy.</summary>
    public required PlugInDocument PlugIn { get; init; }

    /// <summary>The trips that return after the plug-in.</summary>
    public required DrivingCalendar Calendar { get; init; }

    /// <summary>Events of the calendar that are no trips, with the reason.</summary>
    public required IReadOnlyList<IgnoredEvent> Ignored { get; init; }

    /// <summary>The rate plan.</summary>
    public required RatePlan RatePlan { get; init; }

    /// <summary>What is given beside the rate plan; every option of the plan has its choice.</summary>
    public required BillInput RatePlanInput { get; init; }

    /// <summary>Dates at whose start the meter is read; none: calendar months.</summary>
    public IReadOnlyList<LocalDate>? ReadingDates { get; init; }

    /// <summary>Outdoor temperatures.</summary>
    public required WeatherDocument Weather { get; init; }

    /// <summary>Use of the rest of the house for each hour of a common year, standard time; none: not known. [kWh at the meter]</summary>
    public double[]? HouseLoadKwh { get; init; }

    /// <summary>What the household chose.</summary>
    public required ScheduleOptions Options { get; init; }

    /// <summary>What the asker must know about how the request was read.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}
