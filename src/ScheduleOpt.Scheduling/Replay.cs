using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Scheduling;

/// <summary>Simulates a schedule with the full physics: taper close to full, and trips that the battery may not be able to serve.</summary>
/// <remarks>One simulator for the scheduler's replay and for every behaviour of the year. The car charges at the power given for each interval, or at full
/// power, <see cref="ChargingProblem.WallKw"/>; warming before departures goes on beside it.</remarks>
public static class Replay
{
    /// <summary>Runs shares of the intervals spent charging.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="shares">For each interval, the share of it spent charging, in [0, 1]; ignored on the road.</param>
    /// <param name="awayKwh">Energy planned to come from away charging on each departure's trip; none: only what is needed. [kWh]</param>
    /// <param name="wallKw">Charging power in each interval; none: full power. [kW, wall]</param>
    public static ReplayResult Run(ChargingProblem problem, ReadOnlySpan<double> shares, double[]? awayKwh = null, double[]? wallKw = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var run = new ReplayRun(problem, awayKwh);
        for (var i = 0; i < problem.Count; i++)
        {
            run.Step(shares[i], wallKw?[i]);
        }

        return run.Result;
    }

    /// <summary>Energy stored, and taken at the wall, by charging for a while.</summary>
    /// <remarks>
    /// The rate is min(r, floor + k * (E - e)). Below the knee E - (r - floor) / k energy grows in a straight line; above it the gap
    /// E + floor / k - e decays with exp(-k t), exactly. At E the car stops. Wall energy = (stored + (overhead + heating) * time) / eta.
    /// </remarks>
    /// <param name="problem">The problem.</param>
    /// <param name="interval">The interval whose temperature holds.</param>
    /// <param name="storedKwh">Stored energy at the start. [kWh]</param>
    /// <param name="hours">For how long. [h]</param>
    /// <param name="wallKw">Charging power; none: the interval's full power. [kW, wall]</param>
    public static Charged Charge(ChargingProblem problem, int interval, double storedKwh, double hours, double? wallKw = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var power = wallKw ?? problem.WallKw[interval];
        var rate = power == problem.WallKw[interval]
            ? problem.NetKw[interval]
            : ChargingModel.NetRateKw(power, problem.TemperatureC[interval], problem.Constants);
        var full = problem.UsableKwh;
        if (hours <= 0 || power <= 0 || storedKwh >= full)
        {
            return new Charged(storedKwh, 0, 0);
        }

        var (floor, k) = (problem.Constants.TaperFloorKw, problem.Constants.TaperPerHour);
        var knee = full - (Math.Max(0, rate - floor) / k);
        var straight = storedKwh + (rate * hours);
        if (straight <= knee || (rate <= floor && straight <= full))
        {
            return new Charged(straight, power * hours, hours);
        }

        var (stored, on) = (storedKwh, 0.0);
        if (stored < knee)
        {
            on = (knee - stored) / rate;
            stored = knee;
        }

        if (rate <= floor)
        {
            // So slow that it never tapers: straight up to full.
            (stored, on) = (full, (full - storedKwh) / rate);
        }
        else
        {
            var gap = full - stored + (floor / k);
            var untilFull = Math.Log(gap / (floor / k)) / k;
            var tapering = Math.Min(hours - on, untilFull);
            stored = tapering >= untilFull ? full : full + (floor / k) - (gap * Math.Exp(-k * tapering));
            on += tapering;
        }

        var warming = problem.Constants.OverheadKw + ChargingModel.HeatingKw(problem.TemperatureC[interval], problem.Constants);
        return new Charged(stored, (stored - storedKwh + (warming * on)) / problem.Constants.ConversionEfficiency, on);
    }
}
