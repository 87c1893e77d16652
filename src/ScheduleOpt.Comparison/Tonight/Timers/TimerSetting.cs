using NodaTime;

namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>What to set on a timer that knows one moment a night and one current.</summary>
/// <param name="CurrentA">The current. [A, per phase]</param>
/// <param name="Nights">Each stay at home to the second departure ahead in which the schedule charges.</param>
public sealed record TimerSetting(double CurrentA, IReadOnlyList<TimerNight> Nights)
{
    /// <summary>What it costs above the full schedule for as much energy. [currency]</summary>
    public double CostAbove => Nights.Sum(n => n.CostAbove);

    /// <summary>What departures have less than with the full schedule, of what they ask for. [kWh]</summary>
    public double MissingKwh => Nights.Sum(n => n.MissingKwh);

    /// <summary>Whether every departure is served as well as with the full schedule.</summary>
    public bool IsAsReady => MissingKwh == 0;

    /// <summary>Whether it stays within the limits of the schedule, but for the per cent to which the car's limit is set.</summary>
    public bool KeepsLimits => Nights.All(n => !n.IsAboveLimit);
}

/// <summary>One night of a timer.</summary>
/// <param name="Moment">What to set: the start, or the time by which it should be done. On a grid of five minutes, or the ends of the stay.</param>
/// <param name="Start">When charging begins.</param>
/// <param name="End">When it ends.</param>
/// <param name="LimitFraction">The state of charge at which the car should stop, a whole per cent.</param>
/// <param name="Cost">What it costs. [currency]</param>
/// <param name="CostAbove">The same above the full schedule, energy that it stores beyond it at the end value. [currency]</param>
/// <param name="MissingKwh">What the departure has less than with the full schedule, of what it asks for. [kWh]</param>
/// <param name="IsAboveLimit">Whether it passes the ordinary limit earlier than the schedule allows.</param>
public sealed record TimerNight(
    Instant Moment, Instant Start, Instant End, double LimitFraction, double Cost, double CostAbove, double MissingKwh, bool IsAboveLimit)
{
    /// <summary>What it adds to the bill of that night above the full schedule. [currency]</summary>
    public required double ExtraBill { get; init; }

    /// <summary>What the car has more in store than with the full schedule when the night ends. [kWh]</summary>
    public required double ExtraKwh { get; init; }
}
