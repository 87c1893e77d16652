using System.CommandLine;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>The same engine over HTTP.</summary>
internal static class ServeVerb
{
    private const string Name = "serve";

    /// <summary>Makes the verb.</summary>
    public static Command Make(Surroundings surroundings, ExampleHelp examples)
    {
        var command = new Command(Name, "The same engine over HTTP, until it is stopped. It listens on this computer alone unless a key is set.");
        var urls = new Option<string>("--urls")
        {
            Description = "Where it listens.",
            HelpName = "URL",
            DefaultValueFactory = _ => "http://127.0.0.1:5080",
        };
        var json = new Option<bool>("--json") { Description = "Accepted for symmetry; the service always answers in JSON.", Hidden = true };
        command.Add(urls);
        command.Add(json);
        examples.Add(command, $"{Verb.Program} {Name} --urls http://127.0.0.1:5080");
        command.SetAction(parsed => surroundings.Serve(["--urls", parsed.GetRequiredValue(urls)]));
        return command;
    }
}
