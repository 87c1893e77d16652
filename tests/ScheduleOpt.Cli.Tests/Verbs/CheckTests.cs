using System.Text.Json;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Cli.Tests.Verbs;

public sealed class CheckTests
{
    private const string Bad = """
        name: Bad
        utility: Nobody (invented)
        source: Invented.
        currency: DOLLAR
        timeZone: America/Chicago
        effective: { from: 2026-01-01 }
        metering: wholeHouse
        customerCharges: []
        energyCharges:
          - { name: Energy, pricePerKwh: dear }
        rounding: { each: line, mode: halfUp }
        proration: { month: daysInMonth }
        """;

    [Fact]
    public async Task Check_PlanInOrder_ShowsItsHoursAndPrices()
    {
        var run = await CommandRun.Of("check", "example-power-day-and-night");

        // Day from 07:00 to 21:00 on working days; (0.1980 + 0.0045) x 1.025 = 0.20756 and (0.0820 + 0.0045) x 1.025 = 0.08866.
        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Equal(12, run.Lines.Count(l => l.EndsWith("NN NN NN ND DD DD DD DD DD DD DN NN", StringComparison.Ordinal)));
        Assert.Equal(12, run.Lines.Count(l => l.EndsWith("NN NN NN NN NN NN NN NN NN NN NN NN", StringComparison.Ordinal)));
        Assert.Matches(@"D  day +all year +0\.1980 USD/kWh +0\.2076", run.Out);
        Assert.Matches(@"N  night +all year +0\.0820 USD/kWh +0\.0887", run.Out);
    }

    [Fact]
    public async Task Check_SeasonsOfOnePriceInTheFirstBlock_AreAllShown()
    {
        var run = await CommandRun.Of("check", "sample-electric-all-electric-home");

        // Both seasons begin with 0.1340; only the blocks above it differ.
        Assert.Matches(@"all hours +winter", run.Out);
        Assert.Matches(@"all hours +summer", run.Out);
    }

    [Fact]
    public async Task Check_ThreeSeasons_HasEachPriceOfItsDocument()
    {
        var run = await CommandRun.Of("check", "example-power-three-seasons");

        // (price + 0.0045) x 1.025
        Assert.Matches(@"on-peak +summer.* 0\.2950 USD/kWh +0\.3070", run.Out);
        Assert.Matches(@"on-peak +winter.* 0\.2100 USD/kWh +0\.2199", run.Out);
        Assert.Matches(@"overnight +summer.* 0\.0660 USD/kWh +0\.0723", run.Out);
    }

    [Fact]
    public async Task Check_EveryPlanThatComesWithTheProgram_IsInOrderWithin80Columns()
    {
        var run = await CommandRun.Of(["check", .. RatePlanLibrary.Ids]);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.All(run.Lines, l => Assert.True(l.Length <= 80, l));
    }

    [Fact]
    public async Task Check_Faults_AreToldWithFileLinePathRuleAndValue()
    {
        using var file = new TemporaryFile("bad.yaml", Bad);

        var run = await CommandRun.Of("check", file.Path);

        Assert.Equal((1, ""), (run.Code, run.Out));
        Assert.Matches(@"error: \S+bad\.yaml:4 #/currency: .+ Found: DOLLAR", run.Error);
        Assert.Matches(@"error: \S+bad\.yaml:10 #/energyCharges/0/pricePerKwh: .+ Found: dear", run.Error);
    }

    [Fact]
    public async Task Check_OneGoodOneBad_ShowsTheGoodAndExitsWith1()
    {
        using var file = new TemporaryFile("bad.yaml", Bad);

        var run = await CommandRun.Of("check", file.Path, "example-power-standard");

        Assert.Equal(1, run.Code);
        Assert.Contains("Standard, Example Power (invented): in order.", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Check_Json_HasEveryFaultWithItsLine()
    {
        using var file = new TemporaryFile("bad.yaml", Bad);

        var run = await CommandRun.Of("check", file.Path, "example-power-standard", "--json");
        var documents = JsonDocument.Parse(run.Out).RootElement.GetProperty("documents");

        Assert.Equal(1, run.Code);
        Assert.False(documents[0].GetProperty("inOrder").GetBoolean());
        Assert.Contains(documents[0].GetProperty("faults").EnumerateArray(), f =>
            f.GetProperty("pointer").GetString() == "#/currency" && f.GetProperty("line").GetInt32() == 4);
        Assert.True(documents[1].GetProperty("inOrder").GetBoolean());
    }
}
