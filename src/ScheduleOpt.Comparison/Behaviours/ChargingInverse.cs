using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>The question that <see cref="Replay.Charge"/> answers, asked the other way round: for how long, and from where.</summary>
/// <remarks>Below the knee E - (r - floor) / k the energy grows in a straight line; above it the gap E + floor / k - e decays with
/// exp(-k t). Both turn round exactly.</remarks>
internal static class ChargingInverse
{
    /// <summary>Hours of charging at an interval's power from one energy to a higher one; infinite where that can't be. [h]</summary>
    public static double HoursTo(ChargingProblem problem, int interval, double storedKwh, double afterKwh) =>
        HoursTo(problem, problem.NetKw[interval], storedKwh, afterKwh);

    /// <summary>The same at a rate into the battery. [kW]</summary>
    public static double HoursTo(ChargingProblem problem, double rate, double storedKwh, double afterKwh)
    {
        if (afterKwh <= storedKwh)
        {
            return 0;
        }

        if (rate <= 0 || afterKwh > problem.UsableKwh)
        {
            return double.PositiveInfinity;
        }

        var knee = Knee(problem, rate);
        var straight = Math.Max(0, Math.Min(afterKwh, knee) - storedKwh) / rate;
        return afterKwh <= knee ? straight : straight + TaperHours(problem, Math.Max(storedKwh, knee), afterKwh);
    }

    /// <summary>Energy that the battery held before it charged through the whole of an interval. [kWh]</summary>
    public static double Before(ChargingProblem problem, int interval, double afterKwh) =>
        Before(problem, problem.NetKw[interval], problem.Hours[interval], afterKwh);

    /// <summary>Energy that the battery held before it charged at a rate for a while. [kWh]</summary>
    public static double Before(ChargingProblem problem, double rate, double hours, double afterKwh)
    {
        var knee = Knee(problem, rate);
        var tapering = afterKwh > knee ? TaperHours(problem, knee, afterKwh) : 0;
        if (hours < tapering)
        {
            var k = problem.Constants.TaperPerHour;
            return problem.UsableKwh + Offset(problem) - (Gap(problem, afterKwh) * Math.Exp(k * hours));
        }

        return Math.Min(afterKwh, knee) - (rate * (hours - tapering));
    }

    /// <summary>Where the taper begins; at full where the rate is so low that it never does. [kWh]</summary>
    private static double Knee(ChargingProblem problem, double rate) =>
        problem.UsableKwh - (Math.Max(0, rate - problem.Constants.TaperFloorKw) / problem.Constants.TaperPerHour);

    private static double TaperHours(ChargingProblem problem, double from, double until) =>
        Math.Log(Gap(problem, from) / Gap(problem, until)) / problem.Constants.TaperPerHour;

    private static double Gap(ChargingProblem problem, double storedKwh) => problem.UsableKwh + Offset(problem) - storedKwh;

    private static double Offset(ChargingProblem problem) => problem.Constants.TaperFloorKw / problem.Constants.TaperPerHour;
}
