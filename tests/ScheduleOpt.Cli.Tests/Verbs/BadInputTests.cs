namespace ScheduleOpt.Cli.Tests.Verbs;

public sealed class BadInputTests
{
    [Theory]
    [InlineData("schedule --request no-such-file.json", "--request", "no-such-file.json")]
    [InlineData("schedule --demo --calendar no-such-file.ics", "--calendar", "no-such-file.ics")]
    [InlineData("schedule --demo --weather .", "--weather", "folder")]
    [InlineData("schedule --demo --rate-plan no-such-plan", "--rate-plan", "no-such-plan")]
    [InlineData("schedule --demo --vehicle-kwh 0", "--vehicle-kwh", "from 1 to 300 kWh")]
    [InlineData("schedule --demo --vehicle-kwh sixty", "--vehicle-kwh", "sixty")]
    [InlineData("schedule --demo --vehicle-kwh NaN", "--vehicle-kwh", "NaN")]
    [InlineData("schedule --demo --kwh-per-100mi 1000", "--kwh-per-100mi", "1000")]
    [InlineData("schedule --demo --zone Mars/Olympus", "--zone", "Mars/Olympus")]
    [InlineData("schedule --demo --as-of yesterday", "--as-of", "yesterday")]
    [InlineData("schedule --demo --as-of 2026-01-14T17:45:00+01:00", "--as-of", "contradicts the zone")]
    [InlineData("schedule --demo --state-of-charge 140%", "--state-of-charge", "from 0 to 1")]
    [InlineData("schedule --demo --supply 240", "--supply", "240V/40A")]
    [InlineData("schedule --demo --supply 240V/40A/maybe", "--supply", "maybe")]
    [InlineData("schedule --demo --supply 999V/40A", "--supply", "from 100 to 480 V")]
    [InlineData("schedule --demo --temperature 5", "--temperature", "5C or 41F")]
    [InlineData("schedule --demo --temperature -99C", "--temperature", "from -60 to 60 degC")]
    [InlineData("schedule --demo --units furlong", "--units", "furlong")]
    [InlineData("schedule --demo --degrees K", "--degrees", "C or F")]
    [InlineData("schedule --demo --request -", "--demo", "--request")]
    [InlineData("schedule --demo --days 99", "--days", "from 1 to 31")]
    [InlineData("schedule --demo --no-such-option", "--no-such-option", "--no-such-option")]
    [InlineData("schedule --zone", "--zone", "argument missing")]
    [InlineData("compare", "--request", "--demo")]
    [InlineData("compare --demo --rate-plan no-such-plan", "--rate-plan", "no-such-plan")]
    [InlineData("bill --demo --interval-minutes hour", "--interval-minutes", "hour")]
    [InlineData("bill --demo --start 2026-13-01T00:00", "--start", "2026-13-01T00:00")]
    [InlineData("check", "FILE", "missing")]
    [InlineData("check no-such-file.yaml", "FILE", "no-such-file.yaml")]
    [InlineData("frobnicate", "frobnicate", "frobnicate")]
    public async Task BadInput_AnyVerb_NamesFieldAndReasonAndExitsWith1(string line, string field, string reason)
    {
        var run = await CommandRun.Of(line.Split(' '));

        Assert.Equal((1, ""), (run.Code, run.Out));
        Assert.Contains(field, run.Error, StringComparison.Ordinal);
        Assert.Contains(reason, run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("{", "line 1")]
    [InlineData("[1]", "Must be a JSON object")]
    [InlineData("""{"asOf":"2026-01-14T17:45","asOf":"2026-01-14T17:45"}""", "once")]
    [InlineData("""{"vehicle":7}""", "#/vehicle")]
    [InlineData("""{"colour":"red"}""", "#/colour")]
    public async Task Schedule_BrokenRequest_SaysWhereAndWhatMustHold(string request, string expected)
    {
        var run = await CommandRun.OfInput(request, "schedule", "--request", "-");

        Assert.Equal((1, ""), (run.Code, run.Out));
        Assert.Contains("standard input", run.Error, StringComparison.Ordinal);
        Assert.Contains(expected, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schedule_NothingGiven_NamesAnOptionForEveryFieldThatIsMissing()
    {
        var run = await CommandRun.Of("schedule");

        Assert.Equal(1, run.Code);
        Assert.All(
            new[]
            {
                "--zone", "--vehicle-kwh", "--charger-kw", "--kwh-per-100km or --kwh-per-100mi", "--supply", "--state-of-charge", "--calendar",
                "--rate-plan", "--temperature or --weather",
            },
            option => Assert.Contains($"error: {option} (#/", run.Error, StringComparison.Ordinal));
        Assert.DoesNotContain("--as-of", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schedule_FaultInAFile_IsToldUnderTheFilesName()
    {
        using var file = new TemporaryFile("mine.json", """{"timeZone":"America/Chicago"}""");

        var run = await CommandRun.Of("schedule", "--request", file.Path);

        Assert.Contains("mine.json #/vehicle", run.Error, StringComparison.Ordinal);
    }
}
