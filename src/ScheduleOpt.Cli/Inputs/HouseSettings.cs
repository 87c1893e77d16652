using System.Globalization;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>The options of <c>compare</c> that stand for the house load, bills, the panel and what the household chose.</summary>
internal sealed class HouseSettings : HouseholdSettings
{
    private const string MonthsRule = "Must be twelve numbers of kWh with commas between them, January first.";
    private const string BehindRule = "Must be none, or some of generation, storage, peak-limiting with commas between them.";

    // Of the one command that is read: options that may be given several times add to them.
    private readonly List<JsonObject> weather = [];
    private readonly List<string> behaviours = [];

    public HouseSettings(TextReader standardInput)
        : base(standardInput)
    {
        AddFile(
            "--house-meter-file",
            "What the house uses, from its meter: a year of Green Button XML or of a utility's table (CSV).",
            "#/houseLoad",
            MeterFileText.HouseLoad);
        Add("--house-kwh", "NUMBER", "Energy of the house without the car in a year. [kWh]", ["#/houseLoad"], static (draft, typed) =>
            draft.Set("#/houseLoad", new JsonObject { ["annualKwh"] = RequestDraft.Number(typed) }, "--house-kwh", typed));
        AddMonths("--house-monthly-kwh", "The same month by month: twelve numbers, January first.", "#/houseLoad", static months => new JsonObject { ["monthlyKwh"] = months });
        AddMonths(
            "--bills-kwh",
            "Twelve monthly bills to hold the model against: numbers of kWh, January first.",
            "#/calibration",
            static months => new JsonObject { ["billedKwh"] = months, ["billsContainCar"] = false });
        Add("--bills-contain-car", "yes|no", "Whether the car was charged on those bills. Default: no.", [], static (draft, typed) =>
            YesOrNo(draft, "--bills-contain-car", "#/calibration/billsContainCar", typed));
        AddNumber("--service-amperes", "Rating of the dwelling's service, for a panel estimate. [A]", "#/panel/serviceA");
        AddFile(
            "--panel-meter-file",
            "A year of the whole dwelling's demand in intervals of 15 min or less, for a panel estimate: Green Button XML or CSV. Say also --behind-meter.",
            "#/panel/metered",
            MeterFileText.Panel);
        Add("--behind-meter", "WHAT", "What lies behind that meter: none, or generation, storage, peak-limiting.", ["#/panel/metered"], WriteBehind);
        AddSeveral("--weather", "FILE", "A weather year: CSV with month,day,hour,temperature_c, or an .epw file. Given several times: median and range over at most 5.", ["#/weather"], AddWeather);
        AddSeveral("--behaviour", "NAME", "Compare these behaviours instead, such as leastCostByNight; may be given several times.", ["#/behaviours"], AddBehaviour);
        AddText("--house-plan", "PLAN", "Id of the rate plan on which the house stays where the car has a meter of its own. Default: today's, or the cheapest.", "#/housePlan");
        Add("--winters", "yes|no", "Whether the coldest week is shown day by day over all weather years, and a typical one 10 K colder.", [], static (draft, typed) =>
            YesOrNo(draft, "--winters", "#/options/winters", typed));
        AddFile("--scenario", "A named scenario as JSON, laid over the request: name, author, overrides with field, value, note.", "#/scenario", static (draft, path, text) =>
        {
            var scenario = RequestDraft.Of(text, $"{path} ");
            draft.Faults.AddRange(scenario.Faults);
            return scenario.IsRead ? (scenario.Value.Root["scenario"] ?? scenario.Value.Root).DeepClone() : null;
        });
        AddHousehold();
    }

    private void AddWeather(RequestDraft draft, string path)
    {
        if (Text(draft, "--weather", path) is { } text && ScheduleSettings.Weather(draft, Shown(path), text) is { } year)
        {
            weather.Add(year);
            draft.Set("#/weather", new JsonArray([.. weather.Select(w => (JsonNode)w.DeepClone())]), "--weather", path);
        }
    }

    private void AddBehaviour(RequestDraft draft, string typed)
    {
        behaviours.Add(typed);
        draft.Set("#/behaviours", new JsonArray([.. behaviours.Select(b => (JsonNode)JsonValue.Create(b))]), "--behaviour", typed);
    }

    private static void YesOrNo(RequestDraft draft, string name, string pointer, string typed)
    {
        if (typed is "yes" or "no")
        {
            draft.Set(pointer, JsonValue.Create(typed == "yes"), name, typed);
        }
        else
        {
            Refuse(draft, name, "Must be yes or no.", typed);
        }
    }

    private void AddMonths(string name, string description, string pointer, Func<JsonArray, JsonObject> field) => Add(name, "KWH,KWH,...", description, [pointer], (draft, typed) =>
    {
        var months = typed.Split(',');
        if (months.Length == 12 && months.All(m => decimal.TryParse(m.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out _)))
        {
            draft.Set(pointer, field(new JsonArray([.. months.Select(m => (JsonNode?)RequestDraft.Number(m))])), name, typed);
        }
        else
        {
            Refuse(draft, name, MonthsRule, typed);
        }
    });

    private static void WriteBehind(RequestDraft draft, string typed)
    {
        var words = typed == "none" ? [] : typed.Split(',');
        if (words.Any(w => w is not ("generation" or "storage" or "peak-limiting")))
        {
            Refuse(draft, "--behind-meter", BehindRule, typed);
            return;
        }

        foreach (var (word, field) in new[] { ("generation", "generation"), ("storage", "storage"), ("peak-limiting", "peakLimiting") })
        {
            draft.Set($"#/panel/metered/{field}", JsonValue.Create(words.Contains(word)), "--behind-meter", typed);
        }
    }
}
