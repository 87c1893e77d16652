using System.Text.Json.Nodes;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>A rate plan, what is to be billed under it, and which features the plan uses.</summary>
internal sealed record Pair(int Seed, JsonObject Plan, Question Question, IReadOnlySet<string> Features)
{
    /// <summary>A pair is made from its number alone; every other one lies at an edge.</summary>
    public static Pair Make(int seed)
    {
        var draw = new Draw(seed);
        var series = SeriesDraft.Make(draw, atEdge: seed % 2 == 0);
        return new PlanDraft(draw, series).Finish(seed);
    }
}
