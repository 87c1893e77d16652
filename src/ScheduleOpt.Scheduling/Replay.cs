using ScheduleOpt.Core.Charging;

namespace ScheduleOpt.Scheduling;

/// <summary>Simulates a schedule with the full physics: taper close to full, and trips that the battery may not be able to serve.</summary>
/// <remarks>One simulator for the scheduler's replay and for every behaviour of the year. Minimum current and whole power are already in
/// <see cref="ChargingProblem.WallKw"/>: the car charges at full power or not at all.</remarks>
public static class Replay
{
    // Substep of the implicit taper: its error against the exact curve is then below 0.01 kWh.
    private const double TaperStepHours = 1.0 / 60;

    /// <summary>Runs shares of the intervals spent at full power.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="shares">For each interval, the share of it spent charging, in [0, 1]; ignored on the road.</param>
    public static ReplayResult Run(ChargingProblem problem, ReadOnlySpan<double> shares)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var run = new ReplayRun(problem);
        for (var i = 0; i < problem.Count; i++)
        {
            run.Step(shares[i]);
        }

        return run.Result;
    }

    /// <summary>Energy stored, and taken at the wall, by charging for a while.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="interval">The interval whose power and temperature hold.</param>
    /// <param name="storedKwh">Stored energy at the start. [kWh]</param>
    /// <param name="hours">For how long. [h]</param>
    /// <returns>Stored energy at the end and energy at the wall. [kWh]</returns>
    public static (double StoredKwh, double WallKwh) Charge(ChargingProblem problem, int interval, double storedKwh, double hours)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var rate = problem.NetKw[interval];
        var power = problem.WallKw[interval];
        var constants = problem.Constants;
        if (hours <= 0 || power <= 0)
        {
            return (storedKwh, 0);
        }

        // Away from the taper even at the end of the while: one step is exact.
        var end = storedKwh + (rate * hours);
        if (rate <= constants.TaperFloorKw + (constants.TaperPerHour * (problem.UsableKwh - end)))
        {
            return (Math.Min(end, problem.UsableKwh), power * hours);
        }

        var (stored, wall, left) = (storedKwh, 0.0, hours);
        while (left > 1e-12)
        {
            var step = Math.Min(left, TaperStepHours);
            var tapered = Math.Min(rate, ChargingModel.TaperKw(stored, problem.UsableKwh, step, constants));
            tapered = Math.Min(tapered, Math.Max(0, problem.UsableKwh - stored) / step);
            stored += tapered * step;
            wall += step * (tapered < rate
                ? Math.Min(power, ChargingModel.WallKw(tapered, problem.TemperatureC[interval], constants))
                : power);
            left -= step;
        }

        return (stored, wall);
    }
}
