using System.Text;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Service.Hosting;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Jobs;

/// <summary>Long work that was asked for with <c>Prefer: respond-async</c> (RFC 7240).</summary>
internal static class JobApi
{
    private const string Events = "text/event-stream";
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(100);

    /// <summary>Maps the addresses.</summary>
    public static void MapJobs(this RouteGroupBuilder v1)
    {
        var jobs = v1.MapGroup("/jobs/{id}").WithTags("Jobs");
        jobs.MapGet("/", GetAsync)
            .WithMetadata(new OfferedMedia([OfferedMedia.Json, Events]))
            .WithName("getJob")
            .WithSummary("How far a job has come")
            .WithDescription("As JSON once, or with Accept: text/event-stream as events until it ends: progress, then done, failed or cancelled; the data of each is the job.");
        jobs.MapGet("/result", Result)
            .WithMetadata(new OfferedMedia([OfferedMedia.Json, "text/html", "text/csv"]))
            .WithName("getJobResult")
            .WithSummary("The answer of a job that is done")
            .WithDescription("In the media type that was accepted when the job was asked for. Kept for some minutes after the job's end.");
        jobs.MapDelete("/", Delete)
            .WithName("cancelJob")
            .WithSummary("Cancels a job")
            .WithDescription("The job and what it has worked out are gone at once; it stops at the next part of its work.");
    }

    /// <summary>Whether a request prefers an answer later.</summary>
    public static bool IsPreferred(HttpRequest request) => request.Headers["Prefer"]
        .SelectMany(h => (h ?? "").Split(','))
        .Any(p => p.Split(';')[0].Trim().Equals("respond-async", StringComparison.OrdinalIgnoreCase));

    /// <summary>Starts a job and says where it is.</summary>
    public static IResult Start(HttpContext context, JobStore store, Func<IProgress<YearProgress>, CancellationToken, WrittenAnswer> work)
    {
        if (store.Start(work) is not { } job)
        {
            return new ProblemResult(new(ProblemKind.Busy, "As many jobs are held as may be, and none has ended; ask again later, or cancel one.")
            {
                RetryAfterSeconds = SolveGate.RetryAfterSeconds,
            });
        }

        context.Response.Headers.Location = $"/v1/jobs/{job.Id}";
        context.Response.Headers["Preference-Applied"] = "respond-async";
        return WrittenAnswer.Json(job.Json()) with { Status = StatusCodes.Status202Accepted };
    }

    private static async Task<IResult> GetAsync(string id, HttpContext context, JobStore store, IHostApplicationLifetime lifetime)
    {
        if (store.Find(id) is not { } job)
        {
            return NotHeld();
        }

        if (OfferedMedia.ChosenFor(context) != Events)
        {
            return WrittenAnswer.Json(job.Json());
        }

        using var gone = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, lifetime.ApplicationStopping);
        await StreamAsync(context.Response, job, gone.Token);
        return Results.Empty;
    }

    private static async Task StreamAsync(HttpResponse response, Job job, CancellationToken gone)
    {
        response.ContentType = Events;
        response.Headers.CacheControl = "no-store";
        var told = "";
        try
        {
            while (true)
            {
                // The state first: a job that ends between the two is told as running once more, never as ended twice.
                var state = job.State;
                var now = Encoding.UTF8.GetString(job.Json());
                if (now != told || state != JobState.Running)
                {
                    var name = state == JobState.Running ? "progress" : System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(state.ToString());
                    await response.WriteAsync($"event: {name}\ndata: {now}\n\n", gone);
                    await response.Body.FlushAsync(gone);
                    told = now;
                }

                if (state != JobState.Running)
                {
                    return;
                }

                await Task.Delay(Look, gone);
            }
        }
        catch (OperationCanceledException) when (gone.IsCancellationRequested)
        {
            // The listener went away, or the service stops: there is nobody to tell.
        }
    }

    private static IResult Result(string id, JobStore store) => store.Find(id) is not { } job ? NotHeld()
        : job.Answer ?? (IResult)new ProblemResult(new(ProblemKind.NotFound, "The job has no answer: it is not done. Ask the job itself how far it has come."));

    private static IResult Delete(string id, JobStore store) => store.Cancel(id) is { } job ? WrittenAnswer.Json(job.Json()) : NotHeld();

    private static ProblemResult NotHeld() =>
        new(new(ProblemKind.NotFound, "There is no such job: it never was, it was cancelled, or its answer is no longer kept."));
}
