using ScheduleOpt.Comparison.Decisions;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>today</c>: the reference case.</summary>
internal static class TodayReader
{
    /// <summary>Reads the reference case; it names a set-up, a rate plan and a behaviour of the comparison.</summary>
    /// <param name="field">The object; none: no reference case.</param>
    /// <param name="setUps">The set-ups; none where one is faulty.</param>
    /// <param name="plans">The rate plans; none where one is faulty.</param>
    /// <param name="behaviours">Names of the behaviours; none where one is faulty.</param>
    public static CellName? Read(
        JsonField? field, IReadOnlyList<SetUpDocument>? setUps, IReadOnlyList<ChosenRatePlan>? plans, IReadOnlyList<string>? behaviours)
    {
        if (field?.Members("setUp", "ratePlan", "behaviour") is not { } today)
        {
            return null;
        }

        var before = today.Faults.Count;
        var setUp = Among(today, "setUp", setUps?.Select(s => s.SetUp.Name));
        var plan = Among(
            today, "ratePlan", plans?.Where(p => p.Plan.Metering == ScheduleOpt.Tariffs.Metering.WholeHouse).Select(p => p.Plan.Id));
        var atHome = setUps?.FirstOrDefault(s => s.SetUp.Name == setUp)?.SetUp.Supply is not null;
        string? behaviour = null;
        if (atHome)
        {
            behaviour = Among(today, "behaviour", behaviours);
        }
        else if (setUp is not null && today.Optional("behaviour") is { } needless)
        {
            needless.Fault("Public charging alone has no behaviour: leave this out.");
        }

        return today.Faults.Count > before || setUp is null || plan is null ? null : new CellName(setUp, plan, behaviour);
    }

    private static string? Among(JsonMembers today, string name, IEnumerable<string>? known)
    {
        if (today.Required(name) is not { } field || field.Text(200) is not { } text)
        {
            return null;
        }

        if (known is not null && !known.Contains(text))
        {
            field.Fault("Must be one of those that are compared.");
            return null;
        }

        return known is null ? null : text;
    }
}
