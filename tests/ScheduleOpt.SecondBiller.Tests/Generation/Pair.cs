using System.Text.Json.Nodes;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>A rate plan, what is to be billed under it, and which features the plan uses.</summary>
internal sealed record Pair(int Seed, JsonObject Plan, Question Question, IReadOnlySet<string> Features)
{
    /// <summary>A pair is made from its number alone; every other one lies at an edge. A plan with a period that never holds, or a season and period that never meet,
    /// is refused by the reader, and rightly: the pair is then drawn anew.</summary>
    public static Pair Make(int seed)
    {
        for (var attempt = 0; ; attempt++)
        {
            var draw = new Draw(seed + attempt * 1_000_003);
            var series = SeriesDraft.Make(draw, atEdge: seed % 2 == 0);
            var pair = new PlanDraft(draw, series).Finish(seed);
            if (attempt == 50 || !Comparing.FirstBiller.Read(pair.Plan.ToJsonString()).Faults.Any(fault =>
                fault.Rule.StartsWith("Each period must hold at some time", StringComparison.Ordinal)
                || fault.Rule.StartsWith("A charge must cover a season and period that occur together", StringComparison.Ordinal)))
            {
                return pair;
            }
        }
    }
}
