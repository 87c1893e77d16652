using System.CommandLine;
using ScheduleOpt.Cli.Screens;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>The options for the units in which an answer is shown.</summary>
internal sealed class UnitOptions
{
    private readonly Option<string?> distance = new("--units") { Description = "Distances in km or mi. Default: as the request says.", HelpName = "km|mi" };
    private readonly Option<string?> degrees = new("--degrees") { Description = "Temperatures in C or F. Default: C with km, F with mi.", HelpName = "C|F" };

    public UnitOptions(Command command)
    {
        OneOf(distance, "km", "mi");
        OneOf(degrees, "C", "F");
        command.Options.Add(distance);
        command.Options.Add(degrees);
    }

    /// <summary>The unit of distance as a request has it; none where none was asked for.</summary>
    public string? Word(ParseResult parsed) => parsed.GetValue(distance);

    /// <summary>The units to show.</summary>
    /// <param name="parsed">The arguments.</param>
    /// <param name="otherwise">The unit of distance of the request.</param>
    public Units Of(ParseResult parsed, DistanceUnit otherwise) => new(ShownUnits.For(
        parsed.GetValue(distance) switch
        {
            "km" => DistanceUnit.Kilometre,
            "mi" => DistanceUnit.Mile,
            _ => otherwise,
        },
        parsed.GetValue(degrees) is { } d ? d == "F" : null));

    private static void OneOf(Option<string?> option, string first, string second) => option.Validators.Add(result =>
    {
        if (result.Tokens is [{ Value: var typed }] && typed != first && typed != second)
        {
            result.AddError($"{option.Name}: Must be {first} or {second}. Found: {typed}");
        }
    });
}
