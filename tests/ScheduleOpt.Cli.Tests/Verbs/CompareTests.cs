using System.Text.Json;
using System.Text.RegularExpressions;
using ScheduleOpt.Cli.Inputs;

namespace ScheduleOpt.Cli.Tests.Verbs;

public sealed class CompareTests
{
    private static readonly string[] TwoPlans = ["compare", "--demo", "--rate-plan", "example-power-standard", "--rate-plan", "example-power-day-and-night"];

    [Fact]
    public async Task Compare_FourBehaviours_HasARowForEachWithOneBestASetUp()
    {
        var run = await CommandRun.Of(TwoPlans);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Equal(3 * 2, Regex.Count(run.Out, "(?m)^ .* by departure +[0-9]"));
        Assert.Equal(3 * 2, Regex.Count(run.Out, "(?m)^ .* fixed start +[0-9]"));
        Assert.Equal(4, Regex.Count(run.Out, @"\bBEST\b"));
    }

    [Fact]
    public async Task Compare_Json_HasACellForEachSetUpPlanAndBehaviour()
    {
        var run = await CommandRun.Of([.. TwoPlans, "--json"]);

        // Three set-ups with four behaviours, public charging alone with one.
        Assert.Equal(2 * ((3 * 4) + 1), JsonDocument.Parse(run.Out).RootElement.GetProperty("cells").GetArrayLength());
    }

    [Fact]
    public async Task Compare_RequestFile_IsRead()
    {
        using var file = new TemporaryFile("year.json", DemoRequests.YearAtAGlance().ToJsonString());

        var run = await CommandRun.Of("compare", "--request", file.Path, "--rate-plan", "sample-electric-small-home");

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains("Small Home", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_ReportAndCsv_AreWrittenBesideTheScreen()
    {
        using var report = new TemporaryFile("report.html", "");
        using var csv = new TemporaryFile("cells.csv", "");

        var run = await CommandRun.Of([.. TwoPlans, "--units", "mi", "--report", report.Path, "--csv", csv.Path]);

        Assert.Equal((0, ""), (run.Code, run.Error));
        var page = await File.ReadAllTextAsync(report.Path, TestContext.Current.CancellationToken);
        Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
        Assert.Contains("Disclosure", page, StringComparison.Ordinal);
        Assert.Contains(" mi in all", page, StringComparison.Ordinal);
        Assert.DoesNotContain(" km", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(1 + (2 * ((3 * 4) + 1)), (await File.ReadAllLinesAsync(csv.Path, TestContext.Current.CancellationToken)).Length);
    }

    [Fact]
    public async Task Compare_ReportThatCannotBeWritten_IsAComplaint()
    {
        var run = await CommandRun.Of([.. TwoPlans, "--report", "/no/such/folder/report.html"]);

        Assert.NotEqual(0, run.Code);
        Assert.Contains("--report", run.Error, StringComparison.Ordinal);
    }
}
