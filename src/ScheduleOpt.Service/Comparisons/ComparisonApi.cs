using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Reports;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Service.Hosting;
using ScheduleOpt.Service.Jobs;

namespace ScheduleOpt.Service.Comparisons;

/// <summary>Set-ups, rate plans and behaviours over a year.</summary>
internal static class ComparisonApi
{
    private const string Html = "text/html", Csv = "text/csv";

    /// <summary>Maps the address.</summary>
    public static void MapComparisons(this RouteGroupBuilder v1) => v1
        .MapPost("/comparisons", Create)
        .WithMetadata(new OfferedMedia([OfferedMedia.Json, Html, Csv]))
        .WithTags("Comparisons")
        .WithName("createComparison")
        .WithSummary("Compares set-ups, rate plans and behaviours over a year")
        .WithDescription(
            "Whole house with and without the car: one cell for each combination, ranked by cash cost. A set-up of public charging "
            + "alone has one cell for each rate plan. At most 12 set-ups and 40 rate plans. With today and lifeCycle also by life-cycle cost. Accept: text/html "
            + "gives the adviser's report, one page without script; text/csv a line a cell. Prefer: respond-async answers 202 with a job.");

    private static Task<IResult> Create(HttpContext context, Answering answering, JobStore jobs)
    {
        var type = OfferedMedia.ChosenFor(context);
        return answering.AnswerAsync(
            context,
            ComparisonRequestReader.Read,
            (request, cancellation) => Answer(request, type, null, cancellation),
            JobApi.IsPreferred(context.Request)
                ? request => JobApi.Start(context, jobs, (progress, cancellation) => Answer(request, type, progress, cancellation))
                : null);
    }

    private static WrittenAnswer Answer(ComparisonRequest request, string type, IProgress<YearProgress>? progress, CancellationToken cancellation)
    {
        var decided = Decision.Run(request.Decision, progress, cancellation);
        return type switch
        {
            Html => new WrittenAnswer(ComparisonReport.Write(request, decided), "text/html; charset=utf-8")
            {
                ContentSecurityPolicy = ComparisonReport.ContentSecurityPolicy,
            },
            Csv => new WrittenAnswer(ComparisonCsv.Write(request, decided), "text/csv; charset=utf-8") { FileName = "comparison.csv" },
            _ => WrittenAnswer.Json(ComparisonAnswerWriter.Write(request, decided)),
        };
    }
}
