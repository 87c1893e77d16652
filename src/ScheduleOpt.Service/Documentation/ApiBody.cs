using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Documentation;

/// <summary>What goes in and out of one operation.</summary>
/// <param name="Request">Schema of the request's body; none: it has none.</param>
/// <param name="Examples">Names of the example requests, each with what it shows.</param>
/// <param name="Answer">Schema of the answer.</param>
/// <param name="Answers">What the answer is, as a sentence.</param>
/// <param name="Problems">Kinds of problems besides those that any request can have.</param>
/// <param name="Others">Other media types of the answer, each with what it holds.</param>
internal sealed record ApiBody(
    string? Request, IReadOnlyList<(string Name, string Summary)> Examples, string Answer, string Answers, IReadOnlyList<ProblemKind> Problems,
    IReadOnlyList<(string Media, string Holds)>? Others = null)
{
    /// <summary>Schema of the answer to a caller that prefers to wait elsewhere; none: that is not offered.</summary>
    public string? Later { get; init; }
}
