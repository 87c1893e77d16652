using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Homes;
using ScheduleOpt.Interchange.Calendars;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>One car of a question about the coming nights.</summary>
public sealed record CarRequest
{
    /// <summary>The name of the car of a request that lists none.</summary>
    public const string OnlyName = "car";

    /// <summary>Its name, unique in the request.</summary>
    public string Name { get; init; } = OnlyName;

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

    /// <summary>The target of departures that ask for none themselves; none: what the trip needs.</summary>
    public StateOfCharge? Target { get; init; }

    /// <summary>How it may run while it charges.</summary>
    public RunningRules Running { get; init; } = RunningRules.FullCurrent;

    /// <summary>What an earlier answer planned for it; none: nothing is kept.</summary>
    public PreviousSchedule? Previous { get; init; }

    /// <summary>The number of its outlet at the charger, for a charging profile. Default 1.</summary>
    public int Outlet { get; init; } = 1;
}

/// <summary>What an earlier answer planned for a car.</summary>
/// <param name="Windows">Its charging windows, in order.</param>
/// <param name="ExpectedState">The state of charge that it expected for the plug-in of this question; none: not known.</param>
public sealed record PreviousSchedule(IReadOnlyList<PreviousWindow> Windows, StateOfCharge? ExpectedState);

/// <summary>A charging window of an earlier answer.</summary>
/// <param name="Start">When it begins.</param>
/// <param name="End">When it ends; later.</param>
/// <param name="CurrentA">Its current; none: not known. [A, per phase]</param>
/// <param name="Uid">Its identifier in that answer; none: not known.</param>
/// <param name="Sequence">How many times it had changed by then.</param>
public sealed record PreviousWindow(Instant Start, Instant End, double? CurrentA, string? Uid, int Sequence);
