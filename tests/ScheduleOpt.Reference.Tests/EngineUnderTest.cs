using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Reference.Tests;

/// <summary>What the engine answered, in the numbers that the reference states, too.</summary>
/// <param name="TripShortfallKwh">Trip shortfall of each departure after the plug-in up to the horizon's end, that one included. [kWh]</param>
/// <param name="TargetShortfallKwh">Target shortfall of each of them. [kWh]</param>
/// <param name="CostStep2">Cost of step 2 without the end value.</param>
/// <param name="ObjectiveStep2">Objective of step 2: cost less the end value.</param>
internal sealed record EngineAnswer(double[] TripShortfallKwh, double[] TargetShortfallKwh, double CostStep2, double ObjectiveStep2);

/// <summary>The one place where these tests touch the engine: a request of POST /v1/schedules in, steps 1 and 2 out.</summary>
internal static class EngineUnderTest
{
    /// <summary>Reads the request, builds the problem and solves steps 1a, 1b and 2 (not step 3, no replay).</summary>
    public static EngineAnswer Answer(string requestJson)
    {
        var request = ScheduleRequestReader.Read(JsonText.Read(requestJson).Value).Value;
        var question = ScheduleQuestion.Of(request);
        var least = Scheduler.Solve(ChargingProblemBuilder.Build(question.Case.Cars[0].Case), SolverChoice.Glop, question.Order);
        Assert.False(least.LimitReached);
        return new(least.TripShortfallKwh, least.TargetShortfallKwh, least.Cost, least.Objective);
    }
}
