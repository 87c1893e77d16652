using System.CommandLine;
using System.CommandLine.Invocation;
using ScheduleOpt.Cli.Verbs;

namespace ScheduleOpt.Cli;

/// <summary>The engine at a prompt: reads the arguments, runs a verb, gives the exit code.</summary>
public static class CommandLine
{
    /// <summary>An answer was given; that a departure is short is an answer.</summary>
    public const int Answered = 0;

    /// <summary>The input was bad: the error stream says which field, and what to do.</summary>
    public const int BadInput = 1;

    /// <summary>The program itself failed.</summary>
    public const int Failed = 2;

    /// <summary>Given up by whoever asked, such as with Ctrl+C: 128 and the number of the signal, as shells have it. Nothing is left behind.</summary>
    public const int Interrupted = 130;

    /// <summary>Runs one command.</summary>
    /// <param name="args">The arguments; none: the demo.</param>
    /// <param name="surroundings">Streams, clock and terminal.</param>
    /// <param name="cancellation">Gives up long work.</param>
    /// <returns>The exit code.</returns>
    public static async Task<int> RunAsync(
        IReadOnlyList<string> args, Surroundings surroundings, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(args);
        ArgumentNullException.ThrowIfNull(surroundings);
        var parsed = Verb.Root(surroundings).Parse(
            args, new ParserConfiguration { EnablePosixBundling = false, ResponseFileTokenReplacer = null });
        if (parsed.Action is ParseErrorAction)
        {
            Complaints.Write(surroundings.Error, parsed.Errors.Select(e => e.Message), parsed.CommandResult.Command);
            return BadInput;
        }

        try
        {
            return Told(surroundings, await parsed.InvokeAsync(
                new InvocationConfiguration
                {
                    Output = surroundings.Out,
                    Error = surroundings.Error,
                    EnableDefaultExceptionHandler = false,
                },
                cancellation));
        }
        catch (OperationCanceledException)
        {
            return Told(surroundings, Interrupted);
        }
#pragma warning disable CA1031 // The outermost place: an owner is told whose fault it is, and how to show it to whoever mends it.
        catch (Exception e) when (Environment.GetEnvironmentVariable("SCHEDULEOPT_DEBUG") is null)
#pragma warning restore CA1031
        {
            await surroundings.Error.WriteLineAsync(
                $"The program failed; the input is not to blame. {e.GetType().Name}: {e.Message}\n"
                + "With SCHEDULEOPT_DEBUG=1 set it shows where; please report that.");
            return Failed;
        }
    }

    // The command may end by itself when it is interrupted, or be left behind where a part of its work takes long.
    private static int Told(Surroundings surroundings, int code)
    {
        if (code == Interrupted)
        {
            surroundings.Error.WriteLine("Stopped before the answer was ready.");
        }

        return code;
    }
}
