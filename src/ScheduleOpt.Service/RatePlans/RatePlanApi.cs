using System.Text;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Service.Hosting;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.RatePlans;

/// <summary>The rate plans that come with the program.</summary>
internal static class RatePlanApi
{
    /// <summary>Maps the addresses.</summary>
    public static void MapRatePlans(this RouteGroupBuilder v1)
    {
        var plans = v1.MapGroup("/rate-plans").WithTags("Rate plans");
        plans.MapGet("/", List)
            .WithName("listRatePlans")
            .WithSummary("The rate plans that come with the program")
            .WithDescription("All of them are invented examples. A request names one by its id, or carries a rate-plan document instead.");
        plans.MapGet("/{id}", Get)
            .WithName("getRatePlan")
            .WithSummary("One rate plan as a document")
            .WithDescription("The document as a request could carry it in ratePlan.");
    }

    private static WrittenAnswer List() => WrittenAnswer.Json(RatePlanListWriter.Write(RatePlanLibrary.All));

    private static IResult Get(string id) => RatePlanLibrary.FindJson(id) is { } document
        ? WrittenAnswer.Json(Encoding.UTF8.GetBytes(document))
        : new ProblemResult(new(
            ProblemKind.NotFound,
            $"There is no rate plan with this id; known: {string.Join(", ", RatePlanLibrary.Ids)}."));
}
