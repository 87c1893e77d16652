using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>The options of <c>schedule</c> for comfort, battery, emissions, the house around the car, and the charger.</summary>
internal sealed partial class RunningSettings : SettingList
{
    private const string HoursRule = "Must be hours such as 17:00-21:00, several with commas between them; after each, days may stand: 17:00-21:00/mon/tue.";
    private const string LimitRule = "Must be hours and a current such as 22:00-06:00/16A, several with commas between them; days may stand between: 22:00-06:00/mon/16A.";
    private const string WarmUpRule = "Must be a time and the energy at the wall, such as 20min/1.5kWh.";

    private const string CarbonRule = "Must be a price and grams, such as 60/420g.";
    private const string ProfileRule = "Must be a version such as 1.6, 2.0.1 or 2.1; then /A or /W, then /outlet: 2.0.1/W/2.";

    private static readonly Dictionary<string, string> Days = new(StringComparer.OrdinalIgnoreCase)
    {
        ["mon"] = "monday",
        ["tue"] = "tuesday",
        ["wed"] = "wednesday",
        ["thu"] = "thursday",
        ["fri"] = "friday",
        ["sat"] = "saturday",
        ["sun"] = "sunday",
    };

    public RunningSettings(TextReader standardInput)
        : base(standardInput)
    {
        Add("--current", "fixed|adjustable|whole", "Whether the current may be set: not (fixed, the default), freely, or in whole amperes.", ["#/options/running"], WriteCurrent);
        AddNumber("--most-windows", "The most charging windows in one stay.", "#/options/running/mostWindows");
        AddNumber("--least-on", "The least length of a charging window. [min]", "#/options/running/leastOnMinutes");
        AddNumber("--least-off", "The least pause between two windows. [min]", "#/options/running/leastOffMinutes");
        AddNumber("--finish-margin", "How long before departure the car should be ready. [min]", "#/options/finishMarginMinutes");
        Add("--no-charging", "HOURS", "Hours without charging: 17:00-21:00, or 17:00-21:00/mon/tue.", ["#/options/noCharging"], WriteNoCharging);
        Add("--current-limit", "HOURS", "Hours with less current: 22:00-06:00/16A.", ["#/options/currentLimits"], WriteCurrentLimits);
        Add("--warm-up", "TIME/ENERGY", "Warming before departure with energy from the wall: 20min/1.5kWh.", ["#/options/warmUp"], WriteWarmUp);
        AddText("--battery", "lfp|nmc|nca", "Chemistry of the battery, for how long it may stay full.", "#/options/batteryCare/chemistry");
        AddNumber("--import-limit", "The most that the whole house may take from the grid. [kW]", "#/importLimitKw");
        Add("--carbon", "PRICE/GRAMS", "Price of a tonne of carbon dioxide, and what a kWh of the grid emits: 60/420g.", ["#/carbon"], WriteCarbon);
        Add("--profile", "VERSION", "A charging profile of the open charge-point protocol: 1.6, 2.0.1 or 2.1; /W for watts, /2 for outlet 2.", ["#/options/chargingProfile"], WriteProfile);
    }

    private static void WriteCurrent(RequestDraft draft, string typed)
    {
        if (typed is not ("fixed" or "adjustable" or "whole"))
        {
            Refuse(draft, "--current", "Must be fixed, adjustable or whole.", typed);
            return;
        }

        draft.Set("#/options/running/adjustable", JsonValue.Create(typed != "fixed"), "--current", typed);
        draft.Set("#/options/running/wholeAmperes", JsonValue.Create(typed == "whole"), "--current", typed);
    }

    private static void WriteNoCharging(RequestDraft draft, string typed)
    {
        var items = typed.Split(',').Select(item => Hours(item, withCurrent: false)).ToArray();
        Write(draft, "--no-charging", "#/options/noCharging", items, HoursRule, typed);
    }

    private static void WriteCurrentLimits(RequestDraft draft, string typed)
    {
        var items = typed.Split(',').Select(item => Hours(item, withCurrent: true)).ToArray();
        Write(draft, "--current-limit", "#/options/currentLimits", items, LimitRule, typed);
    }

    private static void Write(RequestDraft draft, string name, string pointer, JsonObject?[] items, string rule, string typed)
    {
        if (items.Contains(null))
        {
            Refuse(draft, name, rule, typed);
        }
        else
        {
            draft.Set(pointer, new JsonArray([.. items]), name, typed);
        }
    }

    private static void WriteWarmUp(RequestDraft draft, string typed)
    {
        var match = WarmUpForm().Match(typed);
        if (!match.Success)
        {
            Refuse(draft, "--warm-up", WarmUpRule, typed);
            return;
        }

        draft.Set("#/options/warmUp/minutes", Number(match, "minutes"), "--warm-up", typed);
        draft.Set("#/options/warmUp/energyKwh", Number(match, "energy"), "--warm-up", typed);
    }

    private static void WriteCarbon(RequestDraft draft, string typed)
    {
        var match = CarbonForm().Match(typed);
        if (!match.Success)
        {
            Refuse(draft, "--carbon", CarbonRule, typed);
            return;
        }

        draft.Set("#/carbon", new JsonObject { ["pricePerTonne"] = match.Groups["price"].Value, ["gramsPerKwh"] = Number(match, "grams") }, "--carbon", typed);
    }

    private static void WriteProfile(RequestDraft draft, string typed)
    {
        var match = ProfileForm().Match(typed);
        if (!match.Success)
        {
            Refuse(draft, "--profile", ProfileRule, typed);
            return;
        }

        var profile = new JsonObject { ["version"] = match.Groups["version"].Value };
        if (match.Groups["unit"].Success)
        {
            profile["unit"] = match.Groups["unit"].Value.ToUpperInvariant();
        }

        if (match.Groups["outlet"].Success)
        {
            profile["outlet"] = Number(match, "outlet");
        }

        draft.Set("#/options/chargingProfile", profile, "--profile", typed);
    }

    private static JsonObject? Hours(string text, bool withCurrent)
    {
        var match = HoursForm().Match(text);
        if (!match.Success || match.Groups["amperes"].Success != withCurrent)
        {
            return null;
        }

        var hours = new JsonObject { ["from"] = match.Groups["from"].Value, ["until"] = match.Groups["until"].Value };
        var days = match.Groups["days"].Value.Split('/', StringSplitOptions.RemoveEmptyEntries);
        if (days.Length > 0)
        {
            hours["days"] = new JsonArray([.. days.Select(d => (JsonNode)JsonValue.Create(Days[d]))]);
        }

        if (withCurrent)
        {
            hours["currentA"] = Number(match, "amperes");
        }

        return hours;
    }

    private static JsonValue Number(Match match, string group) => JsonValue.Create(decimal.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture));

    [GeneratedRegex(
        @"\A\s*(?<from>\d\d:\d\d)\s*-\s*(?<until>\d\d:\d\d)(?<days>(/(mon|tue|wed|thu|fri|sat|sun))*)(/(?<amperes>\d{1,4}(\.\d{1,3})?)\s*A)?\s*\z",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex HoursForm();

    [GeneratedRegex(
        @"\A\s*(?<minutes>\d{1,4})\s*min\s*/\s*(?<energy>\d{1,4}(\.\d{1,3})?)\s*kWh\s*\z",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex WarmUpForm();

    [GeneratedRegex(
        @"\A\s*(?<price>\d{1,9}(\.\d{1,6})?)\s*/\s*(?<grams>\d{1,6}(\.\d{1,3})?)\s*g\s*\z",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex CarbonForm();

    [GeneratedRegex(
        @"\A\s*(?<version>\d(\.\d){1,2})(/(?<unit>[AW]))?(/(?<outlet>\d{1,6}))?\s*\z",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex ProfileForm();
}
