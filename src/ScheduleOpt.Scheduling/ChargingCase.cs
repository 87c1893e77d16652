using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Core.Weather;

namespace ScheduleOpt.Scheduling;

/// <summary>A charging question in the words of the trade; <see cref="ChargingProblemBuilder"/> cuts it into intervals.</summary>
public sealed record ChargingCase
{
    /// <summary>When the question begins; the car stands plugged in at home.</summary>
    public required Instant Start { get; init; }

    /// <summary>When it ends: see <see cref="Horizon"/>. Never inside a trip.</summary>
    public required Instant End { get; init; }

    /// <summary>The grid step: 5, 15, 30 or 60 min.</summary>
    public Duration GridStep { get; init; } = Duration.FromMinutes(15);

    /// <summary>The car.</summary>
    public required Vehicle Vehicle { get; init; }

    /// <summary>The supply at home; none: no charging at home.</summary>
    public required Supply? Supply { get; init; }

    /// <summary>State of charge at the start.</summary>
    public required StateOfCharge PluggedInAt { get; init; }

    /// <summary>The trips. Those that returned by the start or depart after the end are left out.</summary>
    public required DrivingCalendar Calendar { get; init; }

    /// <summary>The price of energy; covers start to end.</summary>
    public required PriceSchedule Prices { get; init; }

    /// <summary>Outdoor temperatures.</summary>
    public required TemperatureForecast Temperatures { get; init; }

    /// <summary>The target of departures that ask for none themselves; none: what the trip needs.</summary>
    public StateOfCharge? DefaultTarget { get; init; }

    /// <summary>The confidence at which a trip's need is planned, in [0.5, 0.999]. Default 0.9.</summary>
    public double TripConfidence { get; init; } = 0.9;

    /// <summary>How stops count that charge on a share of days.</summary>
    public StopReading Stops { get; init; } = StopReading.CertainOnly;

    /// <summary>The state of charge that the end must reach; none: stored energy has an end value instead.</summary>
    public StateOfCharge? FinalState { get; init; }

    /// <summary>Hours in which the car does not charge at home, whatever the price.</summary>
    public IReadOnlyList<Interval> NoCharging { get; init; } = [];

    /// <summary>Hours in which its current at home is limited further.</summary>
    public IReadOnlyList<CurrentLimit> CurrentLimits { get; init; } = [];

    /// <summary>How long before each departure its energy should be there, where that costs no departure its energy. Default zero.</summary>
    public Duration FinishMargin { get; init; } = Duration.Zero;

    /// <summary>Warming of battery and cabin before each departure, with energy from the wall; none: no.</summary>
    public WarmUp? WarmUp { get; init; }

    /// <summary>The ageing price of dwelling at a high state of charge; it chooses among schedules of equal cost and is never shown as money.</summary>
    public AgeingPrice Ageing { get; init; } = AgeingPrice.Default;

    /// <summary>Energy that departures must have in place of what their targets and trips ask, by the instant of the departure. [kWh] Never above the extended limit.</summary>
    public IReadOnlyDictionary<Instant, double>? RequiredKwh { get; init; }

    /// <summary>Further instants at which the grid is cut.</summary>
    public IReadOnlyList<Instant> Cuts { get; init; } = [];
}
