namespace ScheduleOpt.Service.Problems;

/// <summary>A problem as the result of a handler.</summary>
internal sealed class ProblemResult(Problem problem) : IResult
{
    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext) => ProblemWriter.WriteAsync(httpContext, problem);
}
