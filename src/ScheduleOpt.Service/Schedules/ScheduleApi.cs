using System.ComponentModel;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Outputs;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Service.Hosting;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Schedules;

/// <summary>When to charge in the coming nights.</summary>
internal static class ScheduleApi
{
    private const string Calendar = "text/calendar", Csv = "text/csv", Intervals = "intervals", Windows = "windows";

    /// <summary>Maps the address.</summary>
    public static void MapSchedules(this RouteGroupBuilder v1) => v1
        .MapPost("/schedules", Create)
        .WithMetadata(new OfferedMedia([OfferedMedia.Json, Calendar, Csv]))
        .WithTags("Schedules")
        .WithName("createSchedule")
        .WithSummary("Works out when to charge in the coming nights")
        .WithDescription(
            "Ready by each departure, at least cost, without dwelling above the ordinary limit; for one car, or for several that share a circuit or "
            + "what the house may import. A departure that can't be met is an answer too: outcome is short, the shortfalls say by how much, and the "
            + "best schedule is given. With Accept: text/calendar the charging windows as a calendar, with text/csv a table.");

    private static Task<IResult> Create(
        HttpContext context,
        Answering answering,
        ILogger<ScheduleAnswer> log,
        [Description("What the rows of text/csv are: intervals (the default) or windows.")] string? rows = null)
    {
        var media = OfferedMedia.ChosenFor(context);
        return rows is not (null or Intervals or Windows) || (rows is not null && media != Csv)
            ? Task.FromResult<IResult>(new ProblemResult(new(ProblemKind.BadRequest, "rows must be intervals or windows, together with Accept: text/csv.")))
            : answering.AnswerAsync(
                context,
                ScheduleRequestReader.Read,
                (request, _) =>
                {
                    var answer = ScheduleAnswering.Answer(request);
                    foreach (var finding in answer.CheckFindings)
                    {
                        log.LogError("The schedule check found: {Finding}", finding);
                    }

                    return Written(answer, media, rows);
                });
    }

    private static WrittenAnswer Written(ScheduleAnswer answer, string media, string? rows) => media switch
    {
        Calendar => new(CalendarFeed.Write(answer), CalendarFeed.MediaType),
        Csv => new(rows == Windows ? ScheduleCsv.WriteWindows(answer) : ScheduleCsv.WriteIntervals(answer), ScheduleCsv.MediaType),
        _ => WrittenAnswer.Json(ScheduleAnswerWriter.Write(answer)),
    };
}
