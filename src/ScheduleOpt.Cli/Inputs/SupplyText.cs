using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Reads a supply as it is said: <c>240V/40A/hardwired</c>.</summary>
internal static partial class SupplyText
{
    /// <summary>What must be typed.</summary>
    public const string Rule =
        "Must be voltage/breaker, such as 240V/40A; then, in any order, /hardwired or /receptacle, /3phase, and the rule for the continuous "
        + "rating: /nec, /dedicated or /socket.";

    private static readonly Dictionary<string, (string Field, JsonNode Value)> Words = new(StringComparer.OrdinalIgnoreCase)
    {
        ["hardwired"] = ("connection", "hardwired"),
        ["receptacle"] = ("connection", "receptacle"),
        ["3phase"] = ("phases", 3),
        ["nec"] = ("rule", "necContinuousLoad"),
        ["dedicated"] = ("rule", "dedicatedCircuit"),
        ["socket"] = ("rule", "domesticSocket"),
    };

    /// <summary>The supply as a request has it; none where the text is not one.</summary>
    public static JsonObject? Read(string text)
    {
        var match = Form().Match(text);
        if (!match.Success)
        {
            return null;
        }

        var supply = new JsonObject { ["voltageV"] = Number(match, "volts"), ["breakerA"] = Number(match, "amperes") };
        foreach (var word in match.Groups["rest"].Value.Split('/', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (!Words.TryGetValue(word, out var known) || supply.ContainsKey(known.Field))
            {
                return null;
            }

            supply[known.Field] = known.Value.DeepClone();
        }

        return supply;
    }

    private static JsonValue Number(Match match, string group) =>
        JsonValue.Create(decimal.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture));

    [GeneratedRegex(
        @"\A\s*(?<volts>\d{1,4}(\.\d{1,3})?)\s*V\s*/\s*(?<amperes>\d{1,4}(\.\d{1,3})?)\s*A\s*(?<rest>(/[a-z0-9 ]+)*)\z",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Form();
}
