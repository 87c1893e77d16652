using System.Text.Json.Nodes;
using ScheduleOpt.Interchange;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>A rate plan that an option named.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Json">The same as a request has it: an id, or a whole document.</param>
/// <param name="Warnings">What is odd in its document, though it can be billed.</param>
internal sealed record RatePlanFound(RatePlan Plan, JsonNode Json, IReadOnlyList<Fault> Warnings);
