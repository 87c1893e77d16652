using System.Text.Json;
using System.Text.Json.Nodes;
using NodaTime;
using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Interchange.Demo;

namespace ScheduleOpt.Cli.Tests.Verbs;

public sealed class ScheduleTests
{
    [Fact]
    public async Task Schedule_FileStandardInputAndDemo_GiveTheSameAnswer()
    {
        var text = DemoRequests.Tonight().ToJsonString();
        using var file = new TemporaryFile("tonight.json", text);

        var demo = await CommandRun.Of("schedule", "--demo", "--json");

        Assert.Equal(0, demo.Code);
        Assert.Equal(demo.Out, (await CommandRun.Of("schedule", "--request", file.Path, "--json")).Out);
        Assert.Equal(demo.Out, (await CommandRun.OfInput(text, "schedule", "--request", "-", "--json")).Out);
    }

    [Theory]
    [InlineData("#/plugIn/stateOfCharge", "0.55", "--state-of-charge", "55%")]
    [InlineData("#/plugIn/stateOfCharge", "0.55", "--state-of-charge", "0.55")]
    [InlineData("#/vehicle/usableEnergyKwh", "77", "--vehicle-kwh", "77")]
    [InlineData("#/vehicle/onBoardChargerKw", "3.6", "--charger-kw", "3.6")]
    [InlineData("#/options/targetStateOfCharge", "0.9", "--target", "90%")]
    [InlineData("#/options/horizonDays", "3", "--days", "3")]
    [InlineData("#/ratePlan", "\"example-power-standard\"", "--rate-plan", "example-power-standard")]
    [InlineData("#/asOf", "\"2026-01-14T19:00\"", "--as-of", "2026-01-14T19:00")]
    [InlineData("#/weather", """{"temperatureC":-12.5}""", "--temperature", "-12.5C")]
    [InlineData("#/weather", """{"temperatureF":9.5}""", "--temperature", "9.5°F")]
    [InlineData("#/houseLoad/annualKwh", "4000", "--house-kwh", "4000")]
    [InlineData("#/supply", """{"voltageV":240,"breakerA":40,"connection":"hardwired","rule":"necContinuousLoad"}""", "--supply", "240V/40A/hardwired/nec")]
    [InlineData("#/supply", """{"voltageV":400,"phases":3,"breakerA":16,"rule":"dedicatedCircuit"}""", "--supply", "400V/16A/3phase/dedicated")]
    public async Task Schedule_Option_IsTheFieldItStandsFor(string pointer, string value, string option, string typed)
    {
        var request = DemoRequests.Tonight();
        new RequestDraft(request, "").Set(pointer, JsonNode.Parse(value)!, "", "");

        var byField = await CommandRun.OfInput(request.ToJsonString(), "schedule", "--request", "-", "--json");
        var byOption = await CommandRun.Of("schedule", "--demo", option, typed, "--json");

        Assert.Equal((0, ""), (byOption.Code, byOption.Error));
        Assert.Equal(byField.Out, byOption.Out);
    }

    [Theory]
    [InlineData("--temperature -5C", "--temperature 23F")]
    [InlineData("--kwh-per-100km 15.5", "--kwh-per-100mi 24.944832")]
    public async Task Schedule_OtherUnits_GiveTheSameAnswerToRounding(string one, string other)
    {
        var first = await CommandRun.Of([.. $"schedule --demo {one} --json".Split(' ')]);
        var second = await CommandRun.Of([.. $"schedule --demo {other} --json".Split(' ')]);

        Assert.Equal(0, first.Code);
        Assert.Equal(Amounts(first.Out), Amounts(second.Out));
    }

    [Fact]
    public async Task Schedule_EpwFileOfOneTemperature_AnswersAsThatTemperature()
    {
        var days = Enumerable.Range(0, 365).Select(d => new LocalDate(2001, 1, 1).PlusDays(d));
        var rows = days.SelectMany(d => Enumerable.Range(1, 24).Select(h => $"2001,{d.Month},{d.Day},{h},0,flags,-10.5,-12.0"));
        using var file = new TemporaryFile("town.epw", "LOCATION,Town,-,-,Invented,0\n" + string.Join("\n", Enumerable.Repeat("header", 7).Concat(rows)));

        var run = await CommandRun.Of("schedule", "--demo", "--weather", file.Path, "--json");

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Equal(Amounts((await CommandRun.Of("schedule", "--demo", "--temperature", "-10.5C", "--json")).Out), Amounts(run.Out));
    }

    [Theory]
    [InlineData("--event-km", "40")]
    [InlineData("--event-mi", "24.854848")]
    public async Task Schedule_EventsWithoutDistance_AreTripsOfTheDistanceGiven(string option, string typed)
    {
        using var file = new TemporaryFile("diary.ics", string.Join(
            "\r\n",
            "BEGIN:VCALENDAR",
            "VERSION:2.0",
            "PRODID:-//example.org//Diary//EN",
            "BEGIN:VEVENT",
            "UID:1@example.org",
            "DTSTAMP:20260101T120000Z",
            "DTSTART;TZID=America/Chicago:20260115T080000",
            "DTEND;TZID=America/Chicago:20260115T170000",
            "SUMMARY:Dentist",
            "END:VEVENT",
            "END:VCALENDAR",
            ""));

        var run = await CommandRun.Of("schedule", "--demo", "--calendar", file.Path, option, typed);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Matches(@"Thu 15 Jan 08:00  Dentist +40 km", run.Out);
    }

    [Fact]
    public async Task Schedule_FromOptionsAlone_AnswersForNow()
    {
        using var calendar = new TemporaryFile("driving.ics", DemoHousehold.CalendarText);

        var run = await CommandRun.Of(
            "schedule", "--zone", "America/Chicago", "--vehicle-kwh", "60", "--charger-kw", "11.5", "--kwh-per-100km", "15.5", "--supply",
            "240V/20A/nec", "--state-of-charge", "38%", "--calendar", calendar.Path, "--rate-plan", "example-power-day-and-night",
            "--temperature", "-10C", "--json");

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Equal("2026-01-14T17:45:00-06:00", JsonDocument.Parse(run.Out).RootElement.GetProperty("asOf").GetString());
    }

    [Fact]
    public async Task Schedule_ShortOutcome_IsAnAnswer()
    {
        var run = await CommandRun.Of("schedule", "--demo", "--supply", "120V/15A", "--temperature", "-30C");

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains("SHORT: the trip of", run.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("READY", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schedule_ReadyOutcome_SaysSo()
    {
        var run = await CommandRun.Of("schedule", "--demo", "--supply", "240V/40A/hardwired", "--temperature", "15C");

        Assert.Contains("READY for every departure", run.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("SHORT", run.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2026-03-06T17:45", " CST", " CDT")]
    [InlineData("2026-01-14T17:45", "Asked Wed 14 Jan 2026, 17:45 (America/Chicago).", null)]
    public async Task Schedule_ClockChangeNear_NamesTheZoneBesideTheTimes(string asOf, string expected, string? alsoExpected)
    {
        var run = await CommandRun.Of("schedule", "--demo", "--temperature", "-10C", "--as-of", asOf);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains(expected, run.Out, StringComparison.Ordinal);
        if (alsoExpected is not null)
        {
            Assert.Contains(alsoExpected, run.Out, StringComparison.Ordinal);
        }
        else
        {
            Assert.DoesNotContain(" CST", run.Out, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Schedule_RatePlanFile_AnswersAsItsLibraryTwin()
    {
        var json = Interchange.RatePlans.RatePlanLibrary.FindJson("example-power-day-and-night")!;
        using var file = new TemporaryFile("mine.json", json);

        var run = await CommandRun.Of("schedule", "--demo", "--rate-plan", file.Path, "--json");

        Assert.Equal(Amounts((await CommandRun.Of("schedule", "--demo", "--json")).Out), Amounts(run.Out));
    }

    private static string[] Amounts(string json) =>
        [.. JsonDocument.Parse(json).RootElement.GetProperty("windows").EnumerateArray().Select(w => w.GetProperty("cost").GetProperty("amount").GetString()!),
            JsonDocument.Parse(json).RootElement.GetProperty("cost").GetProperty("amount").GetString()!];

    // Cheap until 07:00, then dear; 97 % is asked for at 20:30, and above the ordinary limit the schedule waits until just before.
    [Fact]
    public async Task Schedule_ThatCostsMoreThanOnArrival_SaysWhyBesideItsCost()
    {
        const string request = """
            {
              "asOf": "2026-01-14T21:30:00-06:00", "timeZone": "America/Chicago",
              "vehicle": { "usableEnergyKwh": 60, "onBoardChargerKw": 11.5, "consumptionKwhPer100Km": 15.5 },
              "supply": { "voltageV": 240, "breakerA": 40 }, "plugIn": { "stateOfCharge": 0.42 },
              "calendar": { "trips": [ { "departure": "2026-01-15T20:30", "return": "2026-01-16T06:00", "distanceKm": 40, "targetStateOfCharge": 0.97 } ] },
              "ratePlan": "example-power-day-and-night", "weather": { "temperatureC": 5 }
            }
            """;
        var run = await CommandRun.OfInput(request, "schedule", "--request", "-");
        var text = System.Text.RegularExpressions.Regex.Replace(run.Out, @"\s+", " ");
        Assert.Matches(@"Charging on arrival: [0-9.]+ USD, [0-9.]+ USD less[^.]*\. The schedule costs [0-9.]+ USD more than charging on arrival, which stores up to 10\.2 kWh more than the ordinary limit", text);
        Assert.Single(System.Text.RegularExpressions.Regex.Matches(text, "The schedule costs"));
    }
}
