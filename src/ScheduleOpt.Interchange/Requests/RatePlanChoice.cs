using System.Text.Json;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads a <c>ratePlan</c>: the identifier of one that comes with the program, or a whole document.</summary>
internal static class RatePlanChoice
{
    /// <summary>The most rate plans of a comparison.</summary>
    public const int Most = 40;

    /// <summary>Reads the <c>ratePlans</c> of a comparison: each once, all in one currency, one of them for the whole house.</summary>
    public static IReadOnlyList<RatePlan>? ReadList(JsonField? maybe)
    {
        if (maybe is not { } field || field.Items(1, Most, "rate plans") is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var plans = new List<RatePlan>(items.Count);
        for (var i = 0; i < items.Count; i++)
        {
            if (Read(items[i], FormattableString.Invariant($"request-{i}")) is not { } plan)
            {
                continue;
            }

            if (plans.Any(p => p.Id == plan.Id))
            {
                items[i].Fault("Each rate plan may be given once.");
            }

            if (plans.Count > 0 && plan.Currency != plans[0].Currency)
            {
                items[i].Faults.Add(
                    items[i].Pointer, $"All rate plans must be in one currency; the first is in {plans[0].Currency}.", plan.Currency);
            }

            plans.Add(plan);
        }

        if (plans.Count == items.Count && plans.All(p => p.Metering != Metering.WholeHouse))
        {
            field.Fault("At least one rate plan must be metered for the whole house.");
        }

        return field.Faults.Count > before ? null : plans;
    }

    /// <summary>Reads a rate plan.</summary>
    /// <param name="maybe">The field.</param>
    /// <param name="id">The identifier that a document in the request goes by.</param>
    public static RatePlan? Read(JsonField? maybe, string id = "request")
    {
        if (maybe is not { } field)
        {
            return null;
        }

        if (field.Element.ValueKind == JsonValueKind.String)
        {
            if (RatePlanLibrary.Find(field.Element.GetString()!) is { } known)
            {
                return WithoutSeries(field, known);
            }

            field.Fault($"Must be the id of a known rate plan ({string.Join(", ", RatePlanLibrary.Ids)}) or a rate-plan document.");
            return null;
        }

        if (field.Element.ValueKind != JsonValueKind.Object)
        {
            field.Fault("Must be the id of a known rate plan or a rate-plan document.");
            return null;
        }

        var reading = RatePlanDocument.Read(field.Element.GetRawText(), id);
        if (reading.IsRead)
        {
            return WithoutSeries(field, reading.Value);
        }

        // Lines are counted in the text of the document alone: inside a request they would point to the wrong place.
        field.Faults.AddInner(field.Pointer, reading.Faults.Select(f => f with { Line = null }));
        return null;
    }

    /// <summary>A request can't carry price series: a plan that needs one is refused here, not half-way through its bill.</summary>
    private static RatePlan? WithoutSeries(JsonField field, RatePlan plan)
    {
        // A request makes no choices: the defaults hold, and only what they leave in place counts.
        var needed = plan.For(null).PriceSeriesNames;
        if (needed.Count == 0)
        {
            return plan;
        }

        field.Faults.Add(field.Pointer, "The rate plan follows published prices, which a request can't give.", string.Join(", ", needed));
        return null;
    }
}
