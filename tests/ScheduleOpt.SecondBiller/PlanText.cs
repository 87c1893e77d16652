using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace ScheduleOpt.SecondBiller;

/// <summary>A rate-plan document as JSON nodes, from JSON or YAML.</summary>
public static partial class PlanText
{
    public static JsonObject Read(string text)
    {
        if (text.TrimStart().StartsWith('{'))
        {
            return JsonNode.Parse(text)!.AsObject();
        }

        var yaml = new YamlStream();
        yaml.Load(new StringReader(text));
        return Convert(yaml.Documents[0].RootNode)!.AsObject();
    }

    private static JsonNode? Convert(YamlNode node) => node switch
    {
        YamlMappingNode map => new JsonObject(map.Children.Select(pair =>
            KeyValuePair.Create(((YamlScalarNode)pair.Key).Value!, Convert(pair.Value)))),
        YamlSequenceNode list => new JsonArray([.. list.Children.Select(Convert)]),
        YamlScalarNode scalar => Scalar(scalar),
        _ => throw new FormatException("A YAML node that a rate plan can't have."),
    };

    private static JsonNode? Scalar(YamlScalarNode scalar)
    {
        var text = scalar.Value ?? "";
        if (scalar.Style != ScalarStyle.Plain)
        {
            return JsonValue.Create(text);
        }

        return text switch
        {
            "true" => JsonValue.Create(true),
            "false" => JsonValue.Create(false),
            "" or "null" or "~" => null,
            _ when Number().IsMatch(text) => JsonValue.Create(decimal.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture)),
            _ => JsonValue.Create(text),
        };
    }

    [GeneratedRegex(@"^-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?$")]
    private static partial Regex Number();
}
