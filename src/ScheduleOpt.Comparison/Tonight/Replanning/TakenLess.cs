using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tonight.Replanning;

/// <summary>The car has less energy than an earlier plan expected: it took less, or used more.</summary>
/// <param name="ExpectedKwh">What was expected. [kWh]</param>
/// <param name="MeasuredKwh">What was measured. [kWh]</param>
public sealed record TakenLess(double ExpectedKwh, double MeasuredKwh)
{
    /// <summary>The difference. [kWh]</summary>
    public double Kwh => ExpectedKwh - MeasuredKwh;

    /// <summary>The notice in words.</summary>
    public string Sentence => FormattableString.Invariant(
        $"The car has {MeasuredKwh:0.0} kWh, {Kwh:0.0} kWh less than the earlier plan expected: it took less than planned. Check the plug, the charging unit and the car's own limit.");

    /// <summary>The notice, or null where the difference is too small to say anything: see <see cref="MeasuredState"/>.</summary>
    internal static TakenLess? Of(ChargingProblem problem, double? expectedKwh) =>
        expectedKwh is { } expected && expected - problem.InitialKwh > (MeasuredState.AgreesWithin * problem.UsableKwh) + 1e-9
            ? new(expected, problem.InitialKwh)
            : null;
}
