using NodaTime;
using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Comparison.Tonight.Explanations;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>The answer for one car.</summary>
public sealed record CarAnswer
{
    /// <summary>The car and its part of the question.</summary>
    public required CarRequest Car { get; init; }

    /// <summary>The most current with which it charges here. [A, per phase]</summary>
    public required double CurrentA { get; init; }

    /// <summary>The power at that current, away from the taper. [kW, wall]</summary>
    public required double PowerKw { get; init; }

    /// <summary>Charging windows at home, in order.</summary>
    public required IReadOnlyList<WindowAnswer> Windows { get; init; }

    /// <summary>Windows of the earlier answer that are planned no more and were not over when the question was asked.</summary>
    public required IReadOnlyList<PreviousWindow> Withdrawn { get; init; }

    /// <summary>How each departure comes out, in order.</summary>
    public required IReadOnlyList<DepartureForecast> Departures { get; init; }

    /// <summary>The horizon in intervals, in order.</summary>
    public required IReadOnlyList<IntervalAnswer> Intervals { get; init; }

    /// <summary>Usable energy of the battery. [kWh]</summary>
    public double UsableKwh => Car.Vehicle.UsableEnergy.KilowattHours;

    /// <summary>Why the schedule is what it is; none: not asked for.</summary>
    public CarExplanation? Explanation { get; init; }

    /// <summary>What would cure each shortfall; empty where there is none.</summary>
    public IReadOnlyList<ShortfallHelp> Help { get; init; } = [];

    /// <summary>What a simple timer can do; none: not worked out.</summary>
    public TimerSettings? Timers { get; init; }

    /// <summary>Whether every departure has what it needs.</summary>
    public NightOutcome Outcome =>
        Departures.Any(d => d.TripShortfallKwh > 0 || d.TargetShortfallKwh > 0) ? NightOutcome.Short : NightOutcome.Ready;
}

/// <summary>One charging window.</summary>
/// <param name="Uid">Its identifier: the same in a later answer about the same stay.</param>
/// <param name="Sequence">How many times it has changed since it was first planned, as far as the earlier answer tells.</param>
/// <param name="Steps">Its whiles at one current, one at least, in order and without gaps.</param>
/// <param name="BegunAt">When it began, where an earlier answer began it before this one's start; otherwise its start.</param>
public sealed record WindowAnswer(string Uid, int Sequence, IReadOnlyList<StepAnswer> Steps, Instant BegunAt)
{
    /// <summary>When charging begins.</summary>
    public Instant Start => Steps[0].Start;

    /// <summary>When it ends.</summary>
    public Instant End => Steps[^1].End;

    /// <summary>The most current. [A, per phase]</summary>
    public double CurrentA => Steps.Max(s => s.CurrentA);

    /// <summary>Energy taken at the meter. [kWh]</summary>
    public double WallKwh => Steps.Sum(s => s.WallKwh);

    /// <summary>What it costs at the rate plan's prices. [currency]</summary>
    public double Cost => Steps.Sum(s => s.Cost);
}

/// <summary>A while at one current.</summary>
/// <param name="Start">When it begins.</param>
/// <param name="End">When it ends.</param>
/// <param name="CurrentA">The current. [A, per phase]</param>
/// <param name="WallKwh">Energy taken at the meter. [kWh]</param>
/// <param name="Cost">What it costs at the rate plan's prices. [currency]</param>
public sealed record StepAnswer(Instant Start, Instant End, double CurrentA, double WallKwh, double Cost);

/// <summary>One interval of the horizon.</summary>
/// <param name="Start">Its start.</param>
/// <param name="End">Its end.</param>
/// <param name="Place">Where the car is.</param>
/// <param name="TemperatureC">Outdoor temperature. [degC]</param>
/// <param name="PricePerKwh">Price at home, or that of the stop. [currency/kWh]</param>
/// <param name="Share">Share of it in which the car charges.</param>
/// <param name="CurrentA">Current while it charges at home; 0 where it does not. [A, per phase]</param>
/// <param name="WallKwh">Energy taken at the meter or at the stop. [kWh]</param>
/// <param name="StoredKwhAtStart">Stored energy at its start. [kWh]</param>
/// <param name="StoredKwhAtEnd">Stored energy at its end. [kWh]</param>
public readonly record struct IntervalAnswer(
    Instant Start, Instant End, Place Place, double TemperatureC, double PricePerKwh, double Share, double CurrentA, double WallKwh,
    double StoredKwhAtStart, double StoredKwhAtEnd)
{
    /// <summary>How long it is. [h]</summary>
    public double Hours => (End - Start).TotalHours;
}
