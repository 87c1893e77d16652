namespace ScheduleOpt.Cli.Tests.Screens;

public sealed class WidthTests
{
    [Theory]
    [InlineData("")]
    [InlineData("--units mi")]
    [InlineData("schedule --demo")]
    [InlineData("schedule --demo --temperature -30C --supply 120V/15A")]
    [InlineData("schedule --demo --temperature -10C --as-of 2026-03-06T17:45")]
    [InlineData("schedule --demo --days 31")]
    [InlineData("compare --demo --rate-plan example-power-car-owner --rate-plan sample-electric-all-electric-home")]
    [InlineData("bill --demo")]
    public async Task Output_EveryLine_HoldsIn80ColumnsWithoutTrailingSpaces(string line)
    {
        var run = await CommandRun.Of(line.Split(' ', StringSplitOptions.RemoveEmptyEntries));

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.All(run.Lines, l => Assert.True(l.Length <= 80, l));
        Assert.All(run.Lines, l => Assert.Equal(l.TrimEnd(), l));
    }
}
