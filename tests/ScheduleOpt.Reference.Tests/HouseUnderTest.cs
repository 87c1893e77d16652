using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Reference.Tests;

/// <summary>The one place where these tests touch the engine for whole houses: a request of POST /v1/schedules in, the bound out; not a number where a limit stopped the search.</summary>
internal static class HouseUnderTest
{
    // Neither the clock of a busy machine nor a limit on nodes is part of the comparison.
    private static readonly SolveLimit Patient = SolveLimit.Default.Linear with { Nodes = 200_000, GuardMilliseconds = 300_000 };

    /// <summary>Reads the request, builds the household's problem and solves steps 1a, 1b and 2 without the rules of running.</summary>
    public static EngineAnswer Answer(string requestJson)
    {
        var reading = ScheduleRequestReader.Read(JsonText.Read(requestJson).Value);
        Assert.True(reading.IsRead, reading.IsRead ? "" : string.Join("; ", reading.Faults));
        var problem = HouseholdProblemBuilder.Build(ScheduleQuestion.HouseholdOf(reading.Value));
        var relaxed = HouseholdRelaxation.Solve(problem, reading.Value.Options.ShortfallOrder, limit: Patient);
        return new(
            [.. relaxed.Shortfalls.TripKwh.SelectMany(car => car)],
            [.. relaxed.Shortfalls.TargetKwh.SelectMany(car => car)],
            double.NaN,
            relaxed.LimitReached ? double.NaN : relaxed.Objective);
    }
}
