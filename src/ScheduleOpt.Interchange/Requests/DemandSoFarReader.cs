using System.Collections.Immutable;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the power metered so far in the billing period, by demand charge of the rate plan.</summary>
internal static class DemandSoFarReader
{
    /// <summary>Reads <c>demandSoFarKw</c>; its members are the names of the plan's demand charges.</summary>
    /// <param name="field">The field; none: nothing is known.</param>
    /// <param name="plan">The rate plan; none: it was refused already, and names are not looked at.</param>
    public static IReadOnlyDictionary<string, decimal> Read(JsonField? field, RatePlan? plan)
    {
        if (field is null || plan is null)
        {
            return ImmutableDictionary<string, decimal>.Empty;
        }

        var read = new Dictionary<string, decimal>();

        string[] names = [.. plan.DemandCharges.Select(c => c.Name).Distinct()];
        if (names.Length == 0)
        {
            field.Value.Fault("Must be left out: the rate plan has no demand charge.");
            return read;
        }

        if (field.Value.Members(names) is { } members)
        {
            foreach (var name in names)
            {
                if (members.Optional(name)?.Number(new(0, 100_000, "kW")) is { } kw)
                {
                    read[name] = (decimal)kw;
                }
            }
        }

        return read;
    }
}
