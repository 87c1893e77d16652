using NodaTime;
using NodaTime.Testing;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Cli.Tests;

public sealed class ProgressLineTests
{
    [Theory]
    [InlineData(true, 0.9, "")]
    [InlineData(true, 1.1, "3 of 7")]
    [InlineData(false, 5, "")]
    public void Report_AfterASecondOnATerminal_IsShown(bool isTerminal, double seconds, string expected)
    {
        using var error = new StringWriter();
        var clock = new FakeClock(CommandRun.Now);
        using var line = new ProgressLine(Around(error, clock, isTerminal));

        clock.Advance(Duration.FromSeconds(seconds));
        line.Report(new YearProgress(3, 7));

        Assert.Equal(expected.Length > 0, error.ToString().Length > 0);
        Assert.Contains(expected, error.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Dispose_AfterALine_LeavesTheTerminalClean()
    {
        using var error = new StringWriter();
        var clock = new FakeClock(CommandRun.Now);
        var line = new ProgressLine(Around(error, clock, isTerminal: true));
        clock.Advance(Duration.FromSeconds(2));
        line.Report(new YearProgress(3, 7));

        line.Dispose();
        var written = error.ToString();
        line.Report(new YearProgress(4, 7));
        line.Dispose();

        Assert.EndsWith("\r", written, StringComparison.Ordinal);
        Assert.Equal(written, error.ToString());
    }

    private static Surroundings Around(TextWriter error, FakeClock clock, bool isTerminal) =>
        new() { Out = TextWriter.Null, Error = error, Clock = clock, ErrorIsTerminal = isTerminal };
}
