using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.Prices;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Options for what a household chose on its rate plan and what goes with it. They come after those that name the plan.</summary>
internal abstract class HouseholdSettings(TextReader standardInput) : SettingList(standardInput)
{
    private const string ChoiceRule = "Must be the name of an option of the rate plan, = and the choice, such as heating=electric.";

    /// <summary>Choices, size of the service, prices and events.</summary>
    protected void AddHousehold()
    {
        AddSeveral("--choice", "NAME=VALUE", "A choice on the rate plan, such as heating=electric. May be given several times.", [], Choose);
        Add("--service-kw", "NUMBER", "Size of the service, for charges per kW of it. [kW]", [], static (draft, typed) =>
        {
            foreach (var (pointer, node) in RatePlanNodes.Of(draft.Root))
            {
                draft.SetIn(RatePlanNodes.WithChoices(node), pointer, "serviceKw", RequestDraft.Number(typed), "--service-kw", typed);
            }
        });
        AddSeveral(
            "--prices-file",
            "NAME=FILE",
            "Published prices of a series that the rate plan follows: a table (CSV) with times and prices. May be given several times.",
            ["#/prices/*"],
            AddPrices);
        AddFile(
            "--events-file",
            "Events that the utility called: CSV with event,from,to or event,date, or JSON as a request has it.",
            "#/events",
            static (draft, path, text) => EventTable.Read(draft, path, text));
    }

    /// <summary>What earlier bills carried forward.</summary>
    protected void AddState() => AddFile(
        "--state-file", "What the bill before carried forward: its answer in JSON, or the carriedState of it.", "#/carriedState", static (draft, path, text) =>
        {
            var state = RequestDraft.Of(text, $"{path} ");
            draft.Faults.AddRange(state.Faults);
            return state.IsRead ? (state.Value.Root["carriedState"] ?? state.Value.Root).DeepClone() : null;
        });

    /// <summary>Reading dates of the meter.</summary>
    protected void AddReadingDates() => Add(
        "--reading-dates",
        "DATES",
        "Dates at whose start the meter is read, such as 2026-01-20,2026-02-19. Default: calendar months.",
        ["#/readingDates"],
        static (draft, typed) => draft.Set(
            "#/readingDates", new JsonArray([.. typed.Split(',').Select(d => (JsonNode)JsonValue.Create(d.Trim()))]), "--reading-dates", typed));

    private static void Choose(RequestDraft draft, string typed)
    {
        var at = typed.IndexOf('=', StringComparison.Ordinal);
        if (at <= 0)
        {
            Refuse(draft, "--choice", ChoiceRule, typed);
            return;
        }

        var (name, choice) = (typed[..at].Trim(), typed[(at + 1)..].Trim());
        var plans = RatePlanNodes.Of(draft.Root);

        // Of several plans, those that have the option.
        var having = plans.Where(p => plans.Count == 1 || RatePlanNodes.Plan(p.Node)?.Options.Any(o => o.Name == name) == true).ToArray();
        if (having.Length == 0)
        {
            var known = plans.SelectMany(p => RatePlanNodes.Plan(p.Node)?.Options ?? []).Select(o => o.Name).Distinct().ToArray();
            Refuse(draft, "--choice", known.Length == 0 ? "No rate plan here has anything to choose." : $"No rate plan here has this option. Known: {string.Join(", ", known)}.", typed);
        }

        foreach (var (pointer, node) in having)
        {
            var plan = RatePlanNodes.WithChoices(node);
            if (plan["choices"] is not JsonObject choices)
            {
                choices = [];
                plan["choices"] = choices;
            }

            draft.SetIn(choices, $"{pointer}/choices", name, JsonValue.Create(choice), "--choice", typed);
        }
    }

    private void AddPrices(RequestDraft draft, string typed)
    {
        var at = typed.IndexOf('=', StringComparison.Ordinal);
        if (at <= 0)
        {
            Refuse(draft, "--prices-file", "Must be the name of a price series of the rate plan, = and a file, such as day-ahead=prices.csv.", typed);
            return;
        }

        var (name, path) = (typed[..at].Trim(), typed[(at + 1)..]);
        if (ClockOf(draft) is not { } zone)
        {
            Refuse(draft, "--prices-file", "Prices need a rate plan, or a request with a time zone: give --rate-plan.", typed);
        }
        else if (Text(draft, "--prices-file", path) is { } text)
        {
            var table = PriceTable.Read(text, zone);
            draft.Faults.AddRange(table.Faults.Select(f => f with { Pointer = Shown(path) }));
            if (table.IsRead)
            {
                draft.Notes.AddRange(table.Value.Notes.Select(n => $"{Shown(path)}: {n}"));
                draft.Set($"#/prices/{RequestDraft.Step(name)}", Json(table.Value), "--prices-file", typed);
            }
        }
    }

    private static JsonObject Json(PublishedPrices prices) => new()
    {
        ["start"] = InstantPattern.General.Format(prices.Series.Start),
        ["intervalMinutes"] = (int)prices.Series.Interval.TotalMinutes,
        ["pricePerKwh"] = new JsonArray([.. prices.Series.PerKwh.Select(p => p is { } price ? (JsonNode?)JsonValue.Create(price) : null)]),
    };

    private static DateTimeZone? ClockOf(RequestDraft draft) =>
        RatePlanNodes.Of(draft.Root).Select(p => RatePlanNodes.ZoneOf(p.Node)).FirstOrDefault(z => z is not null)
        ?? (draft.Root["timeZone"] is JsonValue value && value.TryGetValue<string>(out var id) ? DateTimeZoneProviders.Tzdb.GetZoneOrNull(id) : null);
}
