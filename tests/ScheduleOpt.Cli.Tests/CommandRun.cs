using NodaTime;
using NodaTime.Testing;

namespace ScheduleOpt.Cli.Tests;

/// <summary>One command, run in this process.</summary>
internal sealed record CommandRun(int Code, string Out, string Error)
{
    public static Instant Now { get; } = Instant.FromUtc(2026, 1, 14, 23, 45);

    public string[] Lines => Out.ReplaceLineEndings("\n").Split('\n');

    public static Task<CommandRun> Of(params string[] args) => With(_ => { }, "", args);

    public static Task<CommandRun> OfInput(string standardInput, params string[] args) => With(_ => { }, standardInput, args);

    public static async Task<CommandRun> With(Action<string[]> served, string standardInput, string[] args, bool hasColour = false)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        using var input = new StringReader(standardInput);
        var code = await CommandLine.RunAsync(args, new Surroundings
        {
            Out = output,
            Error = error,
            In = input,
            HasColour = hasColour,
            Clock = new FakeClock(Now),
            Serve = arguments =>
            {
                served(arguments);
                return Task.FromResult(0);
            },
        });
        return new CommandRun(code, output.ToString(), error.ToString());
    }
}
