using System.Collections.Immutable;
using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

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

    /// <summary>Highest average power metered in the billing period so far, by name of the demand charge. [kW] Default: none known.</summary>
    public IReadOnlyDictionary<string, decimal> DemandSoFarKw { get; init; } = ImmutableDictionary<string, decimal>.Empty;

    /// <summary>The unit of distances in sentences. Default km.</summary>
    public DistanceUnit Unit { get; init; } = DistanceUnit.Kilometre;

    /// <summary>Comparison: whether break-evens are searched, which runs the year again. Default no.</summary>
    public bool BreakEvens { get; init; }

    /// <summary>Comparison: whether inputs are varied one at a time, which runs the year again for each. Default no.</summary>
    public bool Uncertainty { get; init; }

    /// <summary>Comparison: whether the year is run over all its weather years, and a typical one with its coldest week made colder. None: where a list of weather
    /// years is given.</summary>
    public bool? Winters { get; init; }

    /// <summary>How cars may run while they charge, unless one has rules of its own.</summary>
    public RunningRules Running { get; init; } = RunningRules.FullCurrent;

    /// <summary>How long before each departure its energy should be there. Default zero; range 0 to 240 min.</summary>
    public Duration FinishMargin { get; init; }

    /// <summary>Hours without charging.</summary>
    public IReadOnlyList<DailyHours> NoCharging { get; init; } = [];

    /// <summary>Limits of each car's current by hours.</summary>
    public IReadOnlyList<DailyCurrentLimit> CurrentLimits { get; init; } = [];

    /// <summary>Warming before departures with energy from the wall; none: no.</summary>
    public WarmUp? WarmUp { get; init; }

    /// <summary>The ageing price of dwelling at a high state of charge.</summary>
    public AgeingPrice Ageing { get; init; } = AgeingPrice.Default;

    /// <summary>What a change of an earlier answer's windows must save. [currency] Default 0.</summary>
    public decimal KeepUnlessCheaperBy { get; init; }

    /// <summary>Whether the answer explains itself. Default: yes.</summary>
    public bool Explain { get; init; } = true;

    /// <summary>The charging profile to give beside the answer; none: no.</summary>
    public ChargingProfileChoice? ChargingProfile { get; init; }
}
