using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>The answer for the coming nights, as every writer and screen takes it.</summary>
/// <remarks>Money is in binary numbers here and rounded once where it is written. [currency]</remarks>
public sealed record ScheduleAnswer
{
    /// <summary>The question.</summary>
    public required ScheduleRequest Request { get; init; }

    /// <summary>The cars, in the request's order.</summary>
    public required IReadOnlyList<CarAnswer> Cars { get; init; }

    /// <summary>The prices that were planned with.</summary>
    public required PriceSchedule Prices { get; init; }

    /// <summary>What charging adds to the bill, and what stops cost.</summary>
    public required double Cost { get; init; }

    /// <summary>The price of the emissions of the energy charged; none: no carbon price was asked for.</summary>
    public double? CarbonCost { get; init; }

    /// <summary>What charging on arrival adds to the bill.</summary>
    public required double CostOnArrival { get; init; }

    /// <summary>Why the schedule costs more than charging on arrival, in one sentence; none where it costs no more.</summary>
    public string? DearerThanArrival { get; init; }

    /// <summary>Energy stored at the horizon's end by charging on arrival beyond what the schedule stores. [kWh]</summary>
    public required double ExtraEndKwhOnArrival { get; init; }

    /// <summary>Trip shortfall by charging on arrival beyond that of the schedule. [kWh]</summary>
    public required double ExtraAwayKwhOnArrival { get; init; }

    /// <summary>What no schedule that ends with as much stored, and leaves no more unmet than before the taper, can go below, carbon price included; never above what the answer costs.</summary>
    public required double BoundCost { get; init; }

    /// <summary>Cost above the bound; zero or more.</summary>
    public required double Gap { get; init; }

    /// <summary>Whether the gap is as small as it is meant to be.</summary>
    public required bool GapIsFine { get; init; }

    /// <summary>How the schedule was found.</summary>
    public required SolveRoute Route { get; init; }

    /// <summary>Whether a limit stopped the search.</summary>
    public required bool LimitReached { get; init; }

    /// <summary>What the owner must know about this answer, beside the request's warnings.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>What the schedule check found; empty as it should be.</summary>
    public required IReadOnlyList<string> CheckFindings { get; init; }

    /// <summary>Ready where every car is.</summary>
    public NightOutcome Outcome => Cars.Any(c => c.Outcome == NightOutcome.Short) ? NightOutcome.Short : NightOutcome.Ready;
}
