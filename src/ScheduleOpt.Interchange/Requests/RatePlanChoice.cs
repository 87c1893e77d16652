using System.Text.Json;
using System.Text.RegularExpressions;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads a <c>ratePlan</c>: the identifier of one that comes with the program, a whole document, or either of them with what the household
/// chose on it.</summary>
internal static partial class RatePlanChoice
{
    /// <summary>The most rate plans of a comparison.</summary>
    public const int Most = 40;

    private const int MostChoices = 100;
    private static readonly Limits ServiceKw = new(0.1, 10_000, "kW");

    /// <summary>Reads the <c>ratePlans</c> of a comparison: each once, all in one currency, one of them for the whole house.</summary>
    public static IReadOnlyList<ChosenRatePlan>? ReadList(JsonField? maybe)
    {
        if (maybe is not { } field || field.Items(1, Most, "rate plans") is not { } items)
        {
            return null;
        }

        var before = field.Faults.Count;
        var plans = new List<ChosenRatePlan>(items.Count);
        for (var i = 0; i < items.Count; i++)
        {
            if (Read(items[i], FormattableString.Invariant($"request-{i}")) is not { } chosen)
            {
                continue;
            }

            if (plans.Any(p => p.Plan.Id == chosen.Plan.Id))
            {
                items[i].Fault("Each rate plan may be given once; with other choices it needs a label of its own.");
            }

            if (plans.Count > 0 && chosen.Plan.Currency != plans[0].Plan.Currency)
            {
                items[i].Faults.Add(
                    items[i].Pointer, $"All rate plans must be in one currency; the first is in {plans[0].Plan.Currency}.", chosen.Plan.Currency);
            }

            plans.Add(chosen);
        }

        if (plans.Count == items.Count && plans.All(p => p.Plan.Metering != Metering.WholeHouse))
        {
            field.Fault("At least one rate plan must be metered for the whole house.");
        }

        return field.Faults.Count > before ? null : plans;
    }

    /// <summary>Reads a rate plan.</summary>
    /// <param name="maybe">The field.</param>
    /// <param name="id">The identifier that a document in the request goes by.</param>
    public static ChosenRatePlan? Read(JsonField? maybe, string id = "request")
    {
        if (maybe is not { } field)
        {
            return null;
        }

        switch (field.Element.ValueKind)
        {
            case JsonValueKind.String:
                return Known(field) is { } known ? Chosen(known, null, null, hasLines: true) : null;
            case JsonValueKind.Object when IsWithChoices(field.Element):
                return WithChoices(field, id);
            case JsonValueKind.Object:
                return Document(field, id) is { } plan ? Chosen(plan, null, null, hasLines: false) : null;
            default:
                field.Fault("Must be the id of a known rate plan, a rate-plan document, or an object with id or document and what the household chose.");
                return null;
        }
    }

    // No document has a field of these names.
    private static bool IsWithChoices(JsonElement element) =>
        element.TryGetProperty("id", out _) || element.TryGetProperty("document", out _) || element.TryGetProperty("choices", out _)
        || element.TryGetProperty("label", out _);

    private static ChosenRatePlan? WithChoices(JsonField field, string id)
    {
        if (field.Members("id", "document", "label", "choices", "serviceKw") is not { } given)
        {
            return null;
        }

        var source = given.ExactlyOne("id", "document");
        var label = Label(given);
        var serviceKw = given.Optional("serviceKw")?.Exact(ServiceKw);
        var isKnown = given.Has("id");
        var plan = source is not { } from ? null : isKnown ? KnownOnly(from) : Document(from, id);
        if (plan is null)
        {
            return null;
        }

        var before = field.Faults.Count;
        var choices = given.Optional("choices") is { } made ? Choices(made, plan) : null;
        return field.Faults.Count > before ? null : Chosen(label is null ? plan : plan with { Id = label, Name = $"{plan.Name} ({label})" }, choices, serviceKw, isKnown);
    }

    private static string? Label(JsonMembers given)
    {
        if (given.Optional("label") is not { } field)
        {
            return null;
        }

        if (field.Element.ValueKind == JsonValueKind.String && LabelText().IsMatch(field.Element.GetString()!))
        {
            return field.Element.GetString();
        }

        field.Fault("Must be 1 to 100 letters, digits, '-', '_' or '.', beginning with a letter or digit.");
        return null;
    }

    private static Dictionary<string, string>? Choices(JsonField field, RatePlan plan)
    {
        if (field.Entries(MostChoices, "choices") is not { } given)
        {
            return null;
        }

        var choices = new Dictionary<string, string>();
        foreach (var (name, chosen) in given)
        {
            if (plan.Options.FirstOrDefault(o => o.Name == name) is not { } option)
            {
                chosen.Fault(plan.Options.Count == 0
                    ? "This rate plan has nothing to choose."
                    : $"Is not an option of this rate plan. Known: {string.Join(", ", plan.Options.Select(o => o.Name))}.");
            }
            else if (chosen.Word([.. option.Choices.Select((choice, i) => (choice, i))]) is { } index)
            {
                choices[name] = option.Choices[index];
            }
        }

        return choices;
    }

    private static ChosenRatePlan Chosen(RatePlan plan, Dictionary<string, string>? choices, decimal? serviceKw, bool hasLines)
    {
        var open = plan.Options.Where(o => choices?.ContainsKey(o.Name) != true).ToArray();
        var taken = plan.Options.ToDictionary(o => o.Name, o => choices is not null && choices.TryGetValue(o.Name, out var choice) ? choice : o.Default);
        return new(plan, taken, serviceKw, hasLines)
        {
            Warnings = [.. open.Select(o =>
                $"{plan.Id}: {o.Name} is not chosen; the rate plan's default, {o.Default}, holds. Choices: {string.Join(", ", o.Choices)}.")],
        };
    }

    private static RatePlan? Known(JsonField field)
    {
        if (RatePlanLibrary.Find(field.Element.GetString()!) is { } known)
        {
            return known;
        }

        field.Fault($"Must be the id of a known rate plan ({string.Join(", ", RatePlanLibrary.Ids)}) or a rate-plan document.");
        return null;
    }

    private static RatePlan? KnownOnly(JsonField field)
    {
        if (field.Element.ValueKind == JsonValueKind.String)
        {
            return Known(field);
        }

        field.Fault("Must be the id of a known rate plan; a rate-plan document is given as document.");
        return null;
    }

    private static RatePlan? Document(JsonField field, string id)
    {
        if (field.Element.ValueKind != JsonValueKind.Object)
        {
            field.Fault("Must be a rate-plan document.");
            return null;
        }

        var reading = RatePlanDocument.Read(field.Element.GetRawText(), id);
        if (reading.IsRead)
        {
            return reading.Value;
        }

        // Lines are counted in the text of the document alone: inside a request they would point to the wrong place.
        field.Faults.AddInner(field.Pointer, reading.Faults.Select(f => f with { Line = null }));
        return null;
    }

    [GeneratedRegex(@"\A[A-Za-z0-9][A-Za-z0-9._-]{0,99}\z", RegexOptions.CultureInvariant)]
    private static partial Regex LabelText();
}
