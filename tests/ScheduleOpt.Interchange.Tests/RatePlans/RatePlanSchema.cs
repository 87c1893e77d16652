using System.Text.Json;
using Json.Schema;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

/// <summary>The published schema, evaluated by a library that knows nothing of our reader. All its references point inside it.</summary>
internal static class RatePlanSchema
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(RatePlanLibrary.Schema);

    public static bool Accepts(string json) => Schema.Evaluate(JsonDocument.Parse(json).RootElement).IsValid;
}
