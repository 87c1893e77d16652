using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>behaviours</c> of a comparison.</summary>
internal static class BehaviourReader
{
    private static readonly (string, Func<LocalTime, HouseholdZone, LeastCostByNight, Behaviour>)[] Makers =
    [
        ("onArrival", static (_, _, _) => new OnArrival()),
        ("fixedStart", static (at, zone, _) => new FixedStart(at, zone)),
        ("byDeparture", static (_, _, _) => new ByDeparture()),
        ("leastCostByNight", static (_, _, night) => night),
        ("leastCostKnownAhead", static (_, _, _) => new LeastCostKnownAhead()),
    ];

    private static readonly (string, int)[] Words = [.. Makers.Select((maker, i) => (maker.Item1, i))];

    private static readonly LocalTime DefaultStart = new(23, 0);

    /// <summary>Reads the behaviours, each once.</summary>
    /// <param name="maybe">The list.</param>
    /// <param name="start">When charging begins where it begins at a fixed time; 23:00 by default.</param>
    /// <param name="night">How least cost is planned night by night; none: its defaults.</param>
    /// <param name="zone">The household's zone; none where it is faulty.</param>
    public static IReadOnlyList<Behaviour>? Read(JsonField? maybe, JsonField? start, JsonField? night, HouseholdZone? zone)
    {
        var byNight = ByNightReader.Read(night);
        var at = start is { } given ? StartOf(given) : DefaultStart;
        if (maybe is not { } field || field.Items(1, Makers.Length, "behaviours") is not { } items)
        {
            return null;
        }

        var chosen = new List<int>();
        foreach (var item in items)
        {
            if (item.Word(Words) is not { } index)
            {
                continue;
            }

            if (chosen.Contains(index))
            {
                item.Fault("Each behaviour may be given once.");
            }

            chosen.Add(index);
        }

        return zone is null ? null : [.. chosen.Select(i => Makers[i].Item2(at, zone, byNight))];
    }

    private static LocalTime StartOf(JsonField field)
    {
        if (field.Element.ValueKind == JsonValueKind.String
            && LocalTimePattern.CreateWithInvariantCulture("HH':'mm").Parse(field.Element.GetString()!) is { Success: true } at)
        {
            return at.Value;
        }

        field.Fault("Must be a time of day such as 23:00.");
        return DefaultStart;
    }
}
