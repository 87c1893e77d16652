using NodaTime;
using ScheduleOpt.Comparison.Tonight.Timers;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>What cars and plugs with one setting can do in the next night in which the schedule charges, with what each costs above it.</summary>
/// <param name="StartTime">The best single start time; none: no current allows one.</param>
/// <param name="FinishTime">The best single finish time.</param>
/// <param name="SingleCurrent">The best single current.</param>
/// <param name="WhyNot">Why there is no single start or finish, or none that serves as well, where a limit of the household is in its way.</param>
public sealed record TimerSettings(TimerMoment? StartTime, TimerMoment? FinishTime, CurrentSetting? SingleCurrent, string? WhyNot = null)
{
    /// <summary>The settings in the household's time; none where there is nothing to set.</summary>
    internal static TimerSettings? Of(TimerFallbacks fallbacks, DateTimeZone zone) => fallbacks is { StartTime: null, FinishTime: null, SingleCurrent: null }
        ? null
        : new(
            Moment(fallbacks.StartTime, zone),
            Moment(fallbacks.FinishTime, zone),
            fallbacks.SingleCurrent is { } single ? new(single.CurrentA, single.ExtraBill, single.ExtraKwh, single.MissingKwh) : null,
            fallbacks.WhyNot);

    private static TimerMoment? Moment(TimerSetting? setting, DateTimeZone zone) => setting is { Nights: [var night, ..] }
        ? new(night.Moment.InZone(zone).TimeOfDay, setting.CurrentA, night.LimitFraction, night.ExtraBill, night.ExtraKwh, night.MissingKwh)
        : null;
}

/// <summary>A time to set.</summary>
/// <param name="At">The time by the household's clock.</param>
/// <param name="CurrentA">The current. [A, per phase]</param>
/// <param name="StopAt">The state of charge at which the car should stop, in [0, 1].</param>
/// <param name="ExtraCost">What it adds to the bill above the schedule. [currency]</param>
/// <param name="ExtraKwh">What is stored more than by the schedule. [kWh]</param>
/// <param name="MissingKwh">What the departure has less of what it asks for. [kWh]</param>
public sealed record TimerMoment(LocalTime At, double CurrentA, double StopAt, double ExtraCost, double ExtraKwh, double MissingKwh);

/// <summary>A current to set.</summary>
/// <param name="CurrentA">The current. [A, per phase]</param>
/// <param name="ExtraCost">What it adds to the bill over the horizon. [currency]</param>
/// <param name="ExtraKwh">What is stored more at its end. [kWh]</param>
/// <param name="MissingKwh">What departures have less of what they ask for. [kWh]</param>
public sealed record CurrentSetting(double CurrentA, double ExtraCost, double ExtraKwh, double MissingKwh);
