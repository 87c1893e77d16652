using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Service.Hosting;

namespace ScheduleOpt.Service.Comparisons;

/// <summary>Set-ups, rate plans and behaviours over a year.</summary>
internal static class ComparisonApi
{
    /// <summary>Maps the address.</summary>
    public static void MapComparisons(this RouteGroupBuilder v1) => v1
        .MapPost("/comparisons", Create)
        .WithTags("Comparisons")
        .WithName("createComparison")
        .WithSummary("Compares set-ups, rate plans and behaviours over a year")
        .WithDescription(
            "Whole house with and without the car: one cell for each combination, ranked by cash cost. A set-up of public charging "
            + "alone has one cell for each rate plan. At most 12 set-ups and 40 rate plans.");

    private static Task<IResult> Create(HttpContext context, Answering answering) => answering.AnswerAsync(
        context,
        ComparisonRequestReader.Read,
        static (request, cancellation) =>
            WrittenAnswer.Json(ComparisonAnswerWriter.Write(request, YearComparison.Run(request.Case, cancellation: cancellation))));
}
