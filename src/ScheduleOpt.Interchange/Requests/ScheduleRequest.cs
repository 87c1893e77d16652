using NodaTime;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>A question about the coming nights, read and checked: the body of <c>POST /v1/schedules</c>.</summary>
public sealed record ScheduleRequest
{
    /// <summary>The instant of the question; the only clock the answer knows.</summary>
    public required Instant AsOf { get; init; }

    /// <summary>The household's zone.</summary>
    public required HouseholdZone Zone { get; init; }

    /// <summary>The cars, one at least, in the order in which equal wishes are served.</summary>
    public required IReadOnlyList<CarRequest> Cars { get; init; }

    /// <summary>Whether the request lists its cars; the answer then does too.</summary>
    public required bool CarsAreListed { get; init; }

    /// <summary>What is planned: from the earliest plug-in, and never to the inside of a trip.</summary>
    public required Interval Span { get; init; }

    /// <summary>The current that all cars may take together; none: each has its own circuit. [A, per phase]</summary>
    public double? SharedCircuitA { get; init; }

    /// <summary>The most that the whole house may import; none: no limit. [kW]</summary>
    public double? ImportLimitKw { get; init; }

    /// <summary>Expected solar production; none: no solar roof. [kW]</summary>
    public Forecast? Solar { get; init; }

    /// <summary>What emissions weigh beside the bill; none: nothing.</summary>
    public CarbonDocument? Carbon { get; init; }

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
