using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using ScheduleOpt.Cli.Screens;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>Help with examples that run as they stand.</summary>
internal sealed class ExampleHelp : SynchronousCommandLineAction
{
    private readonly HelpAction help = new() { MaxWidth = Screen.Width };
    private readonly Dictionary<Command, string[]> examples = [];

    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <summary>Notes the examples of a verb.</summary>
    public void Add(Command command, params string[] lines) => examples.Add(command, lines);

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        var code = help.Invoke(parseResult);
        var output = parseResult.InvocationConfiguration.Output;
        if (examples.TryGetValue(parseResult.CommandResult.Command, out var lines))
        {
            output.WriteLine(lines.Length > 1 ? "Examples:" : "Example:");
            foreach (var line in lines)
            {
                output.WriteLine($"  {line}");
            }
        }

        return code;
    }
}
