using ScheduleOpt.Comparison.Tonight;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Service.Hosting;

namespace ScheduleOpt.Service.Schedules;

/// <summary>When to charge in the coming nights.</summary>
internal static class ScheduleApi
{
    /// <summary>Maps the address.</summary>
    public static void MapSchedules(this RouteGroupBuilder v1) => v1
        .MapPost("/schedules", Create)
        .WithTags("Schedules")
        .WithName("createSchedule")
        .WithSummary("Works out when to charge in the coming nights")
        .WithDescription(
            "Ready by each departure, at least cost, without dwelling above the ordinary limit. A departure that can't be met is an answer "
            + "too: outcome is short, the shortfalls say by how much, and the best schedule is given.");

    private static Task<IResult> Create(HttpContext context, Answering answering, ILogger<NightPlan> log) => answering.AnswerAsync(
        context,
        ScheduleRequestReader.Read,
        (request, _) =>
        {
            var plan = NightPlanner.Plan(ScheduleQuestion.Of(request));
            foreach (var finding in plan.CheckFindings)
            {
                log.LogError("The schedule check found: {Finding}", finding);
            }

            return ScheduleAnswerWriter.Write(request, plan);
        });
}
