using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>The instants at which something changes for a household beside its cars: load, solar, export and carbon price, billing periods, the hours and averages of terms.</summary>
internal static class HouseholdCuts
{
    public static IEnumerable<Instant> Of(HouseholdCase question)
    {
        var first = question.Cars[0].Case;
        return Changes(question.House)
            .Concat(Changes(question.Solar))
            .Concat(question.Solar is null ? [] : Changes(first.Prices.Spans, s => s.ExportPerKwh))
            .Concat(Changes(question.CarbonPrice ?? [], s => s.ImportPerKwh))
            .Concat(first.Prices.Terms.SelectMany(t => Of(t, first.Start, first.End)));
    }

    private static IEnumerable<Instant> Of(PriceTerm term, Instant start, Instant end)
    {
        var cuts = Edges([term.BillingPeriod]);
        return term switch
        {
            BlockTerm block => cuts.Concat(Edges(block.Hours)),
            DemandTerm demand => cuts.Concat(Edges(demand.Hours))
                .Concat(demand.Sliding ? [] : Edges(AveragingWindows.Of(demand, [start, end]))),
            _ => cuts,
        };
    }

    private static IEnumerable<Instant> Edges(IEnumerable<Interval> spans)
    {
        foreach (var span in spans)
        {
            if (span.HasStart)
            {
                yield return span.Start;
            }

            if (span.HasEnd)
            {
                yield return span.End;
            }
        }
    }

    private static IEnumerable<Instant> Changes(PowerForecast? forecast)
    {
        for (var k = 0; forecast is not null && k <= forecast.AverageKw.Count; k++)
        {
            var before = k > 0 ? forecast.AverageKw[k - 1] : 0;
            var after = k < forecast.AverageKw.Count ? forecast.AverageKw[k] : 0;
            if (before != after)
            {
                yield return forecast.Start + (forecast.Interval * k);
            }
        }
    }

    private static IEnumerable<Instant> Changes(IReadOnlyList<PriceSpan> spans, Func<PriceSpan, decimal> price)
    {
        for (var s = 1; s < spans.Count; s++)
        {
            if (price(spans[s]) != price(spans[s - 1]))
            {
                yield return spans[s].Start;
            }
        }
    }
}
