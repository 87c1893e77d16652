using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Demo;

namespace ScheduleOpt.Cli.Tests.Verbs;

public sealed partial class DemoTests
{
    private static readonly Lazy<Task<CommandRun>> Plain = new(() => CommandRun.Of());
    private static readonly Lazy<Task<CommandRun>> AsJson = new(() => CommandRun.Of("--json"));

    [Fact]
    public async Task Demo_WithoutVerb_AnswersWithoutAWordOfError()
    {
        var run = await Plain.Value;

        Assert.Equal((0, ""), (run.Code, run.Error));
    }

    [Fact]
    public async Task Demo_Windows_AreThoseOfTheAnswerAndAddUpToTheCost()
    {
        var run = await Plain.Value;
        var tonight = JsonDocument.Parse((await AsJson.Value).Out).RootElement.GetProperty("tonight");

        var costs = run.Lines.Select(l => WindowRow().Match(l)).Where(m => m.Success).Select(m => Number(m.Groups["cost"].Value)).ToArray();

        Assert.Equal(tonight.GetProperty("windows").GetArrayLength(), costs.Length);
        Assert.Equal(
            tonight.GetProperty("windows").EnumerateArray().Select(w => Number(w.GetProperty("cost").GetProperty("amount").GetString()!)), costs);
        Assert.InRange(costs.Sum() - Number(tonight.GetProperty("cost").GetProperty("amount").GetString()!), -0.005m * costs.Length, 0.005m * costs.Length);
    }

    [Fact]
    public async Task Demo_CostLine_NamesBothCostsAndWhatOnArrivalLeavesInTheBattery()
    {
        var text = OneLine((await Plain.Value).Out);
        var tonight = JsonDocument.Parse((await AsJson.Value).Out).RootElement.GetProperty("tonight");

        Assert.Contains($": {tonight.GetProperty("cost").GetProperty("amount").GetString()} USD. Charging on arrival: "
            + $"{tonight.GetProperty("costOnArrival").GetProperty("amount").GetString()} USD", text, StringComparison.Ordinal);
        Assert.Contains("more in the battery at the end", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Demo_EachDeparture_SaysReadyTimeOrShort()
    {
        var run = await Plain.Value;
        var departures = JsonDocument.Parse((await AsJson.Value).Out).RootElement.GetProperty("tonight").GetProperty("departures");

        var rows = run.Lines.Where(l => DepartureRow().IsMatch(l)).ToArray();

        Assert.Equal(departures.GetArrayLength(), rows.Length);
        foreach (var (row, departure) in rows.Zip(departures.EnumerateArray()))
        {
            var isShort = departure.GetProperty("tripShortfallKwh").GetDouble() > 0.01 || departure.GetProperty("targetShortfallKwh").GetDouble() > 0.01;
            Assert.Equal(isShort, row.Contains("SHORT", StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Demo_Chart_ReachesTheSecondDepartureWithRowsOfEqualLength()
    {
        var lines = (await Plain.Value).Lines;
        var price = lines.Single(l => l.StartsWith("Price  ", StringComparison.Ordinal));
        var charging = lines.Single(l => l.StartsWith("Charging  ", StringComparison.Ordinal));

        // From 17:30, the half hour of the plug-in, to Thursday 19:00: 51 half hours after 13 columns of names.
        Assert.Equal(13 + 51, price.Length);
        Assert.Equal(price.Length, charging.Length);
        Assert.Contains('█', charging);
        Assert.Contains(lines, l => l.StartsWith("Outdoors, °C", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.StartsWith("Battery, %", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Demo_Year_HasSixRatePlansForEachSetUpAndMarksTheCheapest(int setUp)
    {
        var rows = YearRows((await Plain.Value).Lines, DemoHousehold.SetUps[setUp].Name);

        Assert.True(rows.Length >= 6, $"{rows.Length} rows");
        var best = Assert.Single(rows, r => r.IsBest);
        Assert.Equal(rows.Min(r => Math.Min(r.KnownAhead, r.OnArrival)), Math.Min(best.KnownAhead, best.OnArrival));
        Assert.All(rows, r => Assert.True(r.KnownAhead <= r.OnArrival));
    }

    [Fact]
    public async Task Demo_Year_ShowsTheAmountsOfTheAnswer()
    {
        var lines = (await Plain.Value).Lines;
        var cells = JsonDocument.Parse((await AsJson.Value).Out).RootElement.GetProperty("year").GetProperty("cells").EnumerateArray().ToArray();

        foreach (var setUp in DemoHousehold.SetUps.Where(s => s.Supply is not null))
        {
            var expected = cells.Where(c => c.GetProperty("setUp").GetString() == setUp.Name && c.GetProperty("behaviour").GetString() == "onArrival")
                .Select(c => Number(c.GetProperty("wholeHouseCost").GetProperty("amount").GetString()!));
            Assert.Equal(expected.Order(), YearRows(lines, setUp.Name).Select(r => r.OnArrival).Order());
        }
    }

    [Fact]
    public async Task Demo_EachHomeSetUp_TellsAwayChargingReadinessAndColdestWeek()
    {
        var text = OneLine((await Plain.Value).Out);

        Assert.Equal(3, Regex.Count(text, @"Known ahead: away charging [\d,.to ]+ kWh, [\d,.to ]+ USD; ready for [\d.]+ % of \d+ departures, in the coldest week for"));
        Assert.Equal(3, Regex.Count(text, @"On arrival: away charging [\d,.to ]+ kWh, [\d,.to ]+ USD; ready for [\d.]+ % of \d+ departures, in the coldest week for"));
    }

    [Fact]
    public async Task Demo_Cautions_AndWhoseHouseholdAndWeatherItIs_AreSaid()
    {
        var text = OneLine((await Plain.Value).Out);

        Assert.All(
            new[] { Cautions.Electrician, Cautions.WornReceptacle, Cautions.BillsAreEstimates, DemoHousehold.Notice },
            sentence => Assert.Contains(sentence, text, StringComparison.Ordinal));
        Assert.Contains("National Renewable Energy Laboratory", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Demo_WithColour_SaysTheSameWords()
    {
        var coloured = await CommandRun.With(_ => { }, "", [], hasColour: true);

        Assert.Contains('\u001b', coloured.Out);
        Assert.DoesNotContain('\u001b', (await Plain.Value).Out);
        Assert.Equal((await Plain.Value).Lines, EscapeCode().Replace(coloured.Out, "").ReplaceLineEndings("\n").Split('\n').Select(l => l.TrimEnd()));
    }

    [Fact]
    public async Task Demo_Twice_GivesTheSameBytes() => Assert.Equal((await Plain.Value).Out, (await CommandRun.Of()).Out);

    [Fact]
    public async Task Demo_InMiles_ShowsTheSameMoneyWithDegreesFahrenheit()
    {
        var (km, miles) = (await Plain.Value, await CommandRun.Of("--units", "mi"));

        // 64 km = 39.8 mi.
        Assert.Contains(miles.Lines, l => DepartureRow().IsMatch(l) && l.Contains(" 40 mi", StringComparison.Ordinal));
        Assert.Contains(miles.Lines, l => l.StartsWith("Outdoors, °F", StringComparison.Ordinal));
        Assert.Equal(MoneyText().Matches(km.Out).Select(m => m.Value), MoneyText().Matches(miles.Out).Select(m => m.Value));
    }

    private static (decimal KnownAhead, decimal OnArrival, bool IsBest)[] YearRows(string[] lines, string setUp) =>
        [.. lines.SkipWhile(l => l != setUp).Skip(1).TakeWhile(l => !l.StartsWith("Known ahead", StringComparison.Ordinal))
            .Select(l => YearRow().Match(l)).Where(m => m.Success)
            .Select(m => (Number(m.Groups["ahead"].Value), Number(m.Groups["arrival"].Value), m.Groups["best"].Success))];

    private static decimal Number(string text) => decimal.Parse(text, CultureInfo.InvariantCulture);

    private static string OneLine(string text) => Regex.Replace(text, @"\s+", " ");

    [GeneratedRegex(@"^ \w{3} \d\d \w{3} \d\d:\d\d to .* kWh +(?<cost>[\d,.]+) USD$")]
    private static partial Regex WindowRow();

    [GeneratedRegex(@"^ \w{3} \d\d \w{3} \d\d:\d\d  .* %  ")]
    private static partial Regex DepartureRow();

    [GeneratedRegex(@"^ [A-Z][\w -]+?  +(?<ahead>[\d,]+\.\d\d) +[\d,]+\.\d\d +(?<arrival>[\d,]+\.\d\d) +[\d,]+\.\d\d(?<best>  BEST)?$")]
    private static partial Regex YearRow();

    [GeneratedRegex(@"\u001b\[[0-9;]*m")]
    private static partial Regex EscapeCode();

    [GeneratedRegex(@"[\d,]+\.\d\d USD")]
    private static partial Regex MoneyText();
}
