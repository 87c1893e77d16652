using NodaTime;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight.Explanations;

/// <summary>Why a car's schedule is what it is, in words and in money.</summary>
/// <remarks>Money is the true difference of the bill, found by solving the changed question again with as much energy stored at the end, up to the ordinary limit, and every departure
/// served alike; where that can't be, there is no answer. [currency]</remarks>
/// <param name="Bindings">What holds the cost of each of the next two departures where it is.</param>
/// <param name="WhyEachWindow">A reason for each window.</param>
/// <param name="NextBest">The best schedule without the first window's hours; none: there is no other that serves as well.</param>
/// <param name="OneMoreKwh">One kWh more, and less, at the next departure; none: no departure.</param>
/// <param name="AnHourEarlier">What leaving an hour earlier adds to the bill; none: not possible.</param>
/// <param name="TenPercentMore">What ten points more of the battery at the next departure add to the bill; none: not possible.</param>
/// <param name="NextCircuit">What the next larger standard circuit changes; none: there is none, or it would serve more and can't be compared.</param>
public sealed record CarExplanation(
    IReadOnlyList<Binding> Bindings,
    IReadOnlyList<WindowReason> WhyEachWindow,
    NextBest? NextBest,
    OneMoreKwh? OneMoreKwh,
    BillDifference? AnHourEarlier,
    BillDifference? TenPercentMore,
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

/// <summary>What binds for one departure.</summary>
/// <param name="Departure">The departure.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Sentence">What it is, in plain words.</param>
public sealed record Binding(Instant Departure, BindingKind Kind, string Sentence);

/// <summary>Why a window is where it is.</summary>
/// <param name="Start">The window's start.</param>
/// <param name="Sentence">The reason.</param>
public sealed record WindowReason(Instant Start, string Sentence);

/// <summary>The next-best schedule.</summary>
/// <param name="Extra">What it costs more.</param>
/// <param name="Windows">Its windows.</param>
/// <param name="Sentence">How it differs.</param>
public sealed record NextBest(BillDifference Extra, IReadOnlyList<ChargingWindow> Windows, string Sentence);

/// <summary>What energy is worth at the next departure, as a pair: they differ at a kink.</summary>
/// <param name="More">What one kWh more adds; none: it can't be had.</param>
/// <param name="Less">What one kWh less adds, zero or below; none: less than one is asked for.</param>
public sealed record OneMoreKwh(BillDifference? More, BillDifference? Less)
{
    /// <summary>What one kWh more costs. [currency]</summary>
    public double? Cost => More?.Bill;

    /// <summary>What one kWh less saves. [currency]</summary>
    public double? Saving => -Less?.Bill;
}

/// <summary>What a change adds to the bill over the horizon.</summary>
/// <param name="Bill">To the bill; below zero it saves. [currency]</param>
/// <param name="StoredMoreKwh">What is stored more at the horizon's end; 0 but where the horizon ends too soon after the change to even it out. [kWh]</param>
public sealed record BillDifference(double Bill, double StoredMoreKwh);

/// <summary>What the next larger standard circuit changes over the horizon.</summary>
/// <param name="BreakerA">Its breaker. [A]</param>
/// <param name="Extra">What it adds to the bill: zero or below.</param>
public sealed record NextCircuit(double BreakerA, BillDifference Extra);

/// <summary>The least change of each kind that cures a shortfall, each found by solving the changed question again; none where no change of that kind does.</summary>
/// <param name="Departure">The departure that is short.</param>
/// <param name="PlugInEarlierBy">How much earlier the car would have to be plugged in: whole minutes, up to a day, and not before the last leg home could begin.</param>
/// <param name="BreakerA">The smallest standard breaker whose circuit would do. [A]</param>
/// <param name="CurrentA">The current at which the car would charge there. [A, per phase]</param>
/// <param name="TargetStateOfCharge">The largest state of charge that can be met at the departure, in hundredths of a per cent; none where the trip itself is short.</param>
/// <param name="AwayKwh">Energy to charge on the way so that the trip is covered as it should be. [kWh] None where only a wish beyond the trip's need is missed.</param>
public sealed record ShortfallHelp(
    Instant Departure, Duration? PlugInEarlierBy, double? BreakerA, double? CurrentA, double? TargetStateOfCharge, double? AwayKwh)
{
    /// <summary>Whether some change cures it.</summary>
    public bool AnyCures => PlugInEarlierBy is not null || CurrentA is not null || TargetStateOfCharge is not null || AwayKwh is not null;
}

/// <summary>Reasons and help for one car.</summary>
/// <param name="Explanation">Why its schedule is what it is.</param>
/// <param name="Help">What would cure each shortfall; empty where there is none.</param>
public sealed record CarReasons(CarExplanation Explanation, IReadOnlyList<ShortfallHelp> Help);
