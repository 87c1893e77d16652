using ScheduleOpt.Interchange;

namespace ScheduleOpt.Service.Problems;

/// <summary>What is told about a request that can't be answered: problem details as in RFC 9457.</summary>
/// <param name="Kind">What kind of problem it is.</param>
/// <param name="Detail">What is wrong this time and what to do about it, as a sentence.</param>
public sealed record Problem(ProblemKind Kind, string Detail)
{
    /// <summary>Every field that is at fault; empty where the body is not.</summary>
    public IReadOnlyList<Fault> Errors { get; init; } = [];

    /// <summary>Whole seconds after which it is worth asking again; none: asking again won't help.</summary>
    public int? RetryAfterSeconds { get; init; }

    /// <summary>The problem of a request whose body is at fault.</summary>
    public static Problem Of(ProblemKind kind, IReadOnlyList<Fault> faults) => new(
        kind,
        faults.Count == 1 ? $"{faults[0].Pointer}: {faults[0].Rule}" : $"{faults.Count} things are wrong; each is listed under errors.")
    {
        Errors = faults,
    };
}
