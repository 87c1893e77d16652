using System.Text.RegularExpressions;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Cli.Tests;

/// <summary>What README.md shows is what the program prints.</summary>
public sealed partial class ReadmeTests
{
    private static readonly string Readme = RepositoryFile.Read("README.md");

    [Fact]
    public async Task Readme_ExcerptOfTheDemo_IsWhatTheDemoPrints()
    {
        var demo = (await CommandRun.Of()).Out.ReplaceLineEndings("\n");
        var excerpt = Fence().Matches(Readme).Select(m => m.Groups[1].Value).Single(b => b.StartsWith("READY", StringComparison.Ordinal));
        Assert.Contains(excerpt, demo, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Readme_CommandsOfTheProgram_Run()
    {
        var commands = Command().Matches(Readme).Select(m => m.Groups[1].Value.Trim()).Where(c => c != "serve").ToArray();
        Assert.True(commands.Length >= 6, string.Join("; ", commands));
        using var written = new TemporaryFile("written", "");
        foreach (var command in commands)
        {
            var arguments = command.Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(a => a.StartsWith("tariffs/", StringComparison.Ordinal) ? RepositoryFile.PathOf(a) : a)
                .Select(a => a is "report.html" or "cells.csv" ? Path.Combine(Path.GetDirectoryName(written.Path)!, a) : a)
                .ToArray();
            var run = await CommandRun.Of(arguments);
            Assert.True(run.Code == 0, $"{command}: {run.Error}");
        }
    }

    [GeneratedRegex("^```\\n(.*?)^```", RegexOptions.Singleline | RegexOptions.Multiline)]
    private static partial Regex Fence();

    [GeneratedRegex("--project src/ScheduleOpt.Cli -- (.*)$", RegexOptions.Multiline)]
    private static partial Regex Command();
}
