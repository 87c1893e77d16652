using NodaTime;
using NodaTime.Testing;

namespace ScheduleOpt.Cli.Tests;

/// <summary>Long work on a terminal: a bar, and what is left when it is given up.</summary>
public sealed class InterruptionTests
{
    [Fact]
    public async Task Compare_OnATerminal_ShowsABarAndLeavesTheLineClean()
    {
        using var terminal = new StringWriter();

        var code = await Run(terminal, "compare", "--demo", "--rate-plan", "example-power-standard", "--behaviour", "onArrival");

        Assert.Equal(0, code);
        Assert.Matches(@"\rWorking out \[#+\.*\] \d+ of \d+ ", terminal.ToString());
        Assert.Matches(@"\r +\r$", terminal.ToString());
    }

    [Fact]
    public async Task Compare_Json_ShowsNoBar()
    {
        using var terminal = new StringWriter();

        var code = await Run(terminal, "compare", "--demo", "--rate-plan", "example-power-standard", "--behaviour", "onArrival", "--json");

        Assert.Equal((0, ""), (code, terminal.ToString()));
    }

    [Fact]
    public async Task Compare_GivenUp_LeavesNothingAndExitsWith130()
    {
        using var given = new CancellationTokenSource();
        using var terminal = new GivingUp(given);
        using var output = new StringWriter();
        var folder = Directory.CreateTempSubdirectory();
        try
        {
            var report = Path.Combine(folder.FullName, "report.html");

            var code = await Run(terminal, output, ["compare", "--demo", "--report", report, "--csv", Path.Combine(folder.FullName, "cells.csv")], given.Token);

            Assert.Equal(130, code);
            Assert.Equal("", output.ToString());
            Assert.Empty(folder.GetFileSystemInfos());
            Assert.Matches(@"\r +\rStopped before the answer was ready\.\s*$", terminal.ToString());
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task<int> Run(TextWriter terminal, params string[] args)
    {
        await using var output = new StringWriter();
        return await Run(terminal, output, args, CancellationToken.None);
    }

    // A clock on which each look is two seconds after the last: the first part of the work is late already.
    private static Task<int> Run(TextWriter terminal, TextWriter output, string[] args, CancellationToken given) => CommandLine.RunAsync(
        args,
        new Surroundings { Out = output, Error = terminal, ErrorIsTerminal = true, Clock = new FakeClock(CommandRun.Now, Duration.FromSeconds(2)) },
        given);

    /// <summary>A terminal at which somebody gives up as soon as the bar appears.</summary>
    private sealed class GivingUp(CancellationTokenSource given) : StringWriter
    {
        public override void Write(string? value)
        {
            base.Write(value);
            if (value?.Contains("Working out", StringComparison.Ordinal) == true && !given.IsCancellationRequested)
            {
                // Not on this thread: the line is being written.
                _ = Task.Run(given.Cancel, CancellationToken.None);
            }
        }
    }
}
