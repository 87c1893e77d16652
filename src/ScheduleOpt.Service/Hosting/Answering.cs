using System.Globalization;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Hosting;

/// <summary>The way of every stateless call: read the body, read the request, wait for a place, work, answer.</summary>
public sealed class Answering(SolveGate gate, TimeProvider time)
{
    /// <summary>Answers a request.</summary>
    /// <typeparam name="TRequest">What the body is read as.</typeparam>
    /// <param name="context">The request; its answer gets the Server-Timing header.</param>
    /// <param name="read">Reads the JSON as a request, or says every fault.</param>
    /// <param name="work">Does the work and writes the answer; gives up when the caller has.</param>
    public async Task<IResult> AnswerAsync<TRequest>(
        HttpContext context, Func<JsonText, Reading<TRequest>> read, Func<TRequest, CancellationToken, WrittenAnswer> work)
        where TRequest : class
    {
        var (body, problem) = await JsonBodies.ReadAsync(context.Request, context.RequestAborted);
        if (problem is not null)
        {
            return new ProblemResult(problem);
        }

        var started = time.GetTimestamp();
        var json = JsonText.Read(body);
        if (!json.IsRead)
        {
            return new ProblemResult(Problem.Of(ProblemKind.MalformedJson, json.Faults));
        }

        using var place = await gate.EnterAsync(context.RequestAborted);
        if (!place.IsAcquired)
        {
            return new ProblemResult(new(ProblemKind.Busy, "As many solves run and wait as this machine can do; ask again shortly.")
            {
                RetryAfterSeconds = SolveGate.RetryAfterSeconds,
            });
        }

        var request = read(json.Value);
        var readAt = time.GetTimestamp();
        if (!request.IsRead)
        {
            return new ProblemResult(Problem.Of(ProblemKind.InvalidRequest, request.Faults));
        }

        var answer = work(request.Value, context.RequestAborted);
        context.Response.Headers["Server-Timing"] = string.Create(
            CultureInfo.InvariantCulture,
            $"read;dur={Milliseconds(started, readAt):0.0}, work;dur={Milliseconds(readAt, time.GetTimestamp()):0.0}");
        return answer;
    }

    private double Milliseconds(long from, long until) => time.GetElapsedTime(from, until).TotalMilliseconds;
}
