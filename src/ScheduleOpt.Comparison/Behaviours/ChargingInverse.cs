using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>The questions that <see cref="Replay.Charge"/> answers, asked the other way round: how long, and from where.</summary>
/// <remarks>The taper is implicit in the step, q = min(r, floor + k * (E - e')) with e' at the end of the step: so an end that is known gives
/// the rate without a search. Near full the steps are the replay's own.</remarks>
internal static class ChargingInverse
{
    // The replay's own substep near full; a test holds forward and backward together.
    private const double TaperStepHours = 1.0 / 60;

    /// <summary>Hours of charging in an interval that lead from one energy to a higher one; infinite where that can't be. [h]</summary>
    public static double HoursTo(ChargingProblem problem, int interval, double storedKwh, double afterKwh) =>
        HoursTo(problem, interval, storedKwh, afterKwh, problem.Hours[interval]);

    /// <summary>The same with the interval's power and temperature for as long as it takes; infinite beyond the most. [h]</summary>
    public static double HoursTo(ChargingProblem problem, int interval, double storedKwh, double afterKwh, double mostHours)
    {
        if (afterKwh <= storedKwh)
        {
            return 0;
        }

        var rate = problem.NetKw[interval];
        if (rate <= 0)
        {
            return double.PositiveInfinity;
        }

        if (RateInto(problem, interval, afterKwh) >= rate)
        {
            return (afterKwh - storedKwh) / rate;
        }

        var stored = storedKwh;
        for (var hours = 0.0; hours <= mostHours; hours += TaperStepHours)
        {
            var after = Replay.Charge(problem, interval, stored, TaperStepHours).StoredKwh;
            if (after >= afterKwh)
            {
                return hours + ((afterKwh - stored) / RateInto(problem, interval, afterKwh));
            }

            stored = after;
        }

        return double.PositiveInfinity;
    }

    /// <summary>Energy that the battery held before it charged through the whole of an interval. [kWh]</summary>
    public static double Before(ChargingProblem problem, int interval, double afterKwh)
    {
        var rate = problem.NetKw[interval];
        if (RateInto(problem, interval, afterKwh) >= rate)
        {
            return afterKwh - (rate * problem.Hours[interval]);
        }

        // Forward, the short step comes last; so backward it comes first.
        var whole = Math.Floor((problem.Hours[interval] / TaperStepHours) + 1e-9);
        var rest = problem.Hours[interval] - (whole * TaperStepHours);
        var stored = afterKwh - (Math.Max(0, rest) * RateInto(problem, interval, afterKwh));
        for (var step = 0; step < whole; step++)
        {
            stored -= TaperStepHours * RateInto(problem, interval, stored);
        }

        return stored;
    }

    private static double RateInto(ChargingProblem problem, int interval, double afterKwh) => Math.Min(
        problem.NetKw[interval],
        problem.Constants.TaperFloorKw + (problem.Constants.TaperPerHour * (problem.UsableKwh - afterKwh)));
}
