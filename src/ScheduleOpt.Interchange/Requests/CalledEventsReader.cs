using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>events</c>: those that the utility called, each kind under its name in the rate plan.</summary>
internal static class CalledEventsReader
{
    private const int MostKinds = 20;
    private const int MostEvents = 500;
    private const int MostDays = 2;
    private static readonly Limits Kwh = new(0, 1_000_000, "kWh");
    private static readonly Limits Adjustment = new(-1_000_000, 1_000_000, "kWh");

    /// <summary>Reads the events.</summary>
    /// <param name="maybe">The object.</param>
    /// <param name="clock">The clock of local times.</param>
    /// <param name="plans">The rate plans; none where one is faulty: names and hours are not judged then.</param>
    /// <returns>What was called, by the plan's identifier and the name of the kind.</returns>
    public static Dictionary<string, Dictionary<string, IReadOnlyList<CalledEvent>>> Read(
        JsonField? maybe, DocumentClock clock, IReadOnlyList<RatePlan>? plans)
    {
        var called = (plans ?? []).ToDictionary(p => p.Id, _ => new Dictionary<string, IReadOnlyList<CalledEvent>>());
        if (maybe is { } field && field.Entries(MostKinds, "kinds of events") is { } entries)
        {
            foreach (var (name, entry) in entries)
            {
                ReadKind(name, entry, clock, plans, called);
            }
        }

        return called;
    }

    private static void ReadKind(
        string name, JsonField entry, DocumentClock clock, IReadOnlyList<RatePlan>? plans, Dictionary<string, Dictionary<string, IReadOnlyList<CalledEvent>>> called)
    {
        var having = (plans ?? []).Where(p => p.Events.Any(e => e.Name == name)).ToArray();
        if (plans is not null && having.Length == 0)
        {
            var known = plans.SelectMany(p => p.Events).Select(e => e.Name).Distinct().ToArray();
            entry.Faults.Add(
                entry.Pointer,
                known.Length == 0 ? "No rate plan here has events." : $"No rate plan here has an event of this name. Known: {string.Join(", ", known)}.",
                JsonField.Shortened(name));
        }

        if (entry.Items(0, MostEvents, "events") is not { } items)
        {
            return;
        }

        var stated = items.Select(i => StatedEvent.Read(i, clock, Kwh, Adjustment)).OfType<StatedEvent>().ToArray();
        foreach (var plan in having)
        {
            var definition = plan.Events.First(e => e.Name == name);
            called[plan.Id][name] = [.. stated.Select(s => s.On(plan, definition, MostDays)).OfType<CalledEvent>()];
        }
    }
}
