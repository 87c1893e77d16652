using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>What a household may choose about how a schedule is worked out, each with its default.</summary>
public sealed record ScheduleOptions
{
    /// <summary>The grid step: 5, 15, 30 or 60 min. Default 15.</summary>
    public Duration GridStep { get; init; } = Duration.FromMinutes(15);

    /// <summary>How far ahead is planned. [days] Default 7; range 1 to 31, at least 2 are planned.</summary>
    public int HorizonDays { get; init; } = 7;

    /// <summary>The target of departures that ask for none themselves; none: what the trip needs.</summary>
    public StateOfCharge? Target { get; init; }

    /// <summary>The share of such trips that should be covered. Default 0.9; range 0.5 to 0.999.</summary>
    public double TripConfidence { get; init; } = 0.9;

    /// <summary>Which departure goes first when not all can be met. Default: in time order.</summary>
    public ShortfallOrder ShortfallOrder { get; init; } = ShortfallOrder.InTimeOrder;

    /// <summary>Energy the meter has counted in the billing period so far, for plans with blocks. [kWh at the meter] Default 0.</summary>
    public Energy UsedSoFar { get; init; }

    /// <summary>The unit of distances in sentences. Default km.</summary>
    public DistanceUnit Unit { get; init; } = DistanceUnit.Kilometre;

    /// <summary>Comparison: whether break-evens are searched, which runs the year again. Default no.</summary>
    public bool BreakEvens { get; init; }

    /// <summary>Comparison: whether inputs are varied one at a time, which runs the year again for each. Default no.</summary>
    public bool Uncertainty { get; init; }
}
