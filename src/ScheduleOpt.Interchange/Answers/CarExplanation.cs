using NodaTime;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Why a car's schedule is what it is, in words and in money. [currency]</summary>
/// <param name="Bindings">What holds the cost where it is.</param>
/// <param name="WhyEachWindow">A reason for each window.</param>
/// <param name="NextBest">The next-best schedule; none: there is no other.</param>
/// <param name="OneMoreKwh">One kWh more, and less, at the next departure; none: no departure.</param>
/// <param name="AnHourEarlier">What leaving an hour earlier adds to the cost; none: not possible.</param>
/// <param name="TenPercentMore">What a target of ten points more adds to the cost; none: not possible.</param>
/// <param name="NextCircuit">What the next larger standard circuit changes; none: there is none.</param>
public sealed record CarExplanation(
    IReadOnlyList<Binding> Bindings,
    IReadOnlyList<WindowReason> WhyEachWindow,
    NextBest? NextBest,
    OneMoreKwh? OneMoreKwh,
    double? AnHourEarlier,
    double? TenPercentMore,
    NextCircuit? NextCircuit);

/// <summary>What holds the cost where it is.</summary>
public enum BindingKind
{
    /// <summary>The price: other hours are dearer.</summary>
    Price,

    /// <summary>The current: more would charge in fewer dear hours.</summary>
    Current,

    /// <summary>The time plugged in.</summary>
    Time,

    /// <summary>A limit on the state of charge.</summary>
    Limit,

    /// <summary>What the house may import, or the circuit that cars share.</summary>
    Household,
}

/// <summary>One thing that binds.</summary>
/// <param name="Kind">Its kind.</param>
/// <param name="Sentence">What it is, in plain words.</param>
public sealed record Binding(BindingKind Kind, string Sentence);

/// <summary>Why a window is where it is.</summary>
/// <param name="Start">The window's start.</param>
/// <param name="Sentence">The reason.</param>
public sealed record WindowReason(Instant Start, string Sentence);

/// <summary>The next-best schedule.</summary>
/// <param name="ExtraCost">What it costs more. [currency]</param>
/// <param name="Windows">Its windows.</param>
/// <param name="Sentence">How it differs.</param>
public sealed record NextBest(double ExtraCost, IReadOnlyList<ChargingWindow> Windows, string Sentence);

/// <summary>What energy is worth at the next departure, as a pair: they differ at a kink.</summary>
/// <param name="Cost">What one kWh more costs. [currency]</param>
/// <param name="Saving">What one kWh less saves. [currency]</param>
public sealed record OneMoreKwh(double Cost, double Saving);

/// <summary>What the next larger standard circuit changes over the horizon.</summary>
/// <param name="BreakerA">Its breaker. [A]</param>
/// <param name="Saving">What it saves. [currency]</param>
public sealed record NextCircuit(double BreakerA, double Saving);

/// <summary>The least change of each kind that cures a shortfall; none where no change of that kind does.</summary>
/// <param name="Departure">The departure that is short.</param>
/// <param name="PlugInEarlierBy">How much earlier the car would have to be plugged in.</param>
/// <param name="CurrentA">The current that would do. [A, per phase]</param>
/// <param name="TargetStateOfCharge">The target that can be met.</param>
/// <param name="AwayKwh">Energy to charge on the way. [kWh]</param>
public sealed record ShortfallHelp(
    Instant Departure, Duration? PlugInEarlierBy, double? CurrentA, double? TargetStateOfCharge, double? AwayKwh);

/// <summary>What cars and plugs with one setting can do, with what each costs above the schedule.</summary>
/// <param name="StartTime">The best single start time.</param>
/// <param name="FinishTime">The best single finish time.</param>
/// <param name="SingleCurrent">The best single current.</param>
public sealed record TimerSettings(TimerSetting? StartTime, TimerSetting? FinishTime, CurrentSetting? SingleCurrent);

/// <summary>A time to set.</summary>
/// <param name="At">The time by the household's clock.</param>
/// <param name="ExtraCost">What it costs above the schedule. [currency]</param>
public sealed record TimerSetting(LocalTime At, double ExtraCost);

/// <summary>A current to set.</summary>
/// <param name="CurrentA">The current. [A, per phase]</param>
/// <param name="ExtraCost">What it costs above the schedule. [currency]</param>
public sealed record CurrentSetting(double CurrentA, double ExtraCost);
