namespace ScheduleOpt.Interchange.Tests.Requests;

public sealed class RunningWarningsTests
{
    [Theory]
    [InlineData(60, """{"leastOnMinutes":30}""", "leastOnMinutes of 30 is kept in whole steps of 60 min, so for 60 min")]
    [InlineData(15, """{"leastOnMinutes":40}""", "leastOnMinutes of 40 is kept in whole steps of 15 min, so for 45 min")]
    [InlineData(30, """{"leastOffMinutes":45}""", "leastOffMinutes of 45 is kept in whole steps of 30 min, so for 60 min")]
    [InlineData(15, """{"leastOnMinutes":30,"leastOffMinutes":15}""", null)]
    [InlineData(60, """{"mostWindows":2}""", null)]
    public void Warnings_OfALengthThatTheGridCannotShow_SayHowLongItIsKept(int grid, string running, string? expected)
    {
        var warnings = RequestText.Schedule().Set("options", $$"""{"gridMinutes":{{grid}},"running":{{running}}}""").Good().Warnings;
        if (expected is null)
        {
            Assert.DoesNotContain(warnings, w => w.Contains("whole steps", StringComparison.Ordinal));
        }
        else
        {
            Assert.Contains(warnings, w => w.Contains(expected, StringComparison.Ordinal));
        }
    }
}
