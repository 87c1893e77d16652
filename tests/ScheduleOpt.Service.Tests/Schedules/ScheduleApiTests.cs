using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Service.Tests.Schedules;

public sealed class ScheduleApiTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Schedule_OfTheExample_IsReadyAndCheaperThanOnArrival()
    {
        var answer = await Answer(Requests.Schedule());
        Assert.Equal("ready", answer.GetProperty("outcome").GetString());
        Assert.Equal(0, answer.GetProperty("tripShortfallKwh").GetDouble());
        Assert.True(Amount(answer, "cost") < Amount(answer, "costOnArrival"));
        Assert.True(Amount(answer, "boundCost") <= Amount(answer, "cost"));

        // 240 V x 80 % of 40 A: the NEC's continuous rating.
        Assert.Equal(32, answer.GetProperty("currentA").GetDouble());
        Assert.Equal(7.68, answer.GetProperty("powerKw").GetDouble());
        Assert.Contains(answer.GetProperty("cautions").EnumerateArray(), c => c.GetString()!.Contains("32 A", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Schedule_Windows_AddUpToTheCostAndLieInTheNight()
    {
        var answer = await Answer(Requests.Schedule());
        var windows = answer.GetProperty("windows").EnumerateArray().ToArray();
        Assert.NotEmpty(windows);
        Assert.Equal((double)Amount(answer, "cost"), windows.Sum(w => (double)Amount(w, "cost")), 0.005 * (windows.Length + 1));

        // Prices fall at 21:00 and rise at 07:00 on working days: with a whole night to choose from, tonight's charging lies between.
        var first = DateTimeOffset.Parse(windows[0].GetProperty("start").GetString()!, CultureInfo.InvariantCulture);
        Assert.True(first.Hour is >= 21 or < 7, $"Charging begins at {first}.");
    }

    [Fact]
    public async Task Schedule_AskedTwice_AnswersTheSameBytes()
    {
        using var client = service.CreateClient();
        var first = await client.PostAsync("/v1/schedules", Requests.Json(Requests.Schedule()));
        var second = await client.PostAsync("/v1/schedules", Requests.Json(Requests.Schedule()));
        Assert.Equal(await first.Content.ReadAsByteArrayAsync(), await second.Content.ReadAsByteArrayAsync());
        Assert.Contains("work;dur=", Assert.Single(first.Headers.GetValues("Server-Timing")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Departure_ThatCannotBeMet_Is200AndShort()
    {
        var request = Requests.Schedule();
        request["supply"] = JsonNode.Parse("""{ "voltageV": 120, "breakerA": 15 }""");
        request["plugIn"]!["stateOfCharge"] = 0.12;
        var answer = await Answer(request);
        Assert.Equal("short", answer.GetProperty("outcome").GetString());
        Assert.True(answer.GetProperty("tripShortfallKwh").GetDouble() > 0.01);
        Assert.True(answer.GetProperty("shortfallKm").GetDouble() > 0);
        Assert.Equal(JsonValueKind.String, answer.GetProperty("departures")[0].GetProperty("readyAt").ValueKind);
    }

    [Fact]
    public async Task Schedule_OfAnIcalendarText_ReadsItsTrips()
    {
        var request = Requests.Schedule();
        request["calendar"] = new JsonObject
        {
            ["ics"] = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//example.org//test//EN\r\nBEGIN:VEVENT\r\nUID:a@example.org\r\n"
                + "DTSTAMP:20260101T120000Z\r\nDTSTART;TZID=America/Chicago:20260115T073000\r\nDTEND;TZID=America/Chicago:20260115T180000\r\n"
                + "SUMMARY:Work\r\nX-TRIP-DISTANCE;X-UNIT=km:64\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:b@example.org\r\n"
                + "DTSTAMP:20260101T120000Z\r\nDTSTART;TZID=America/Chicago:20260116T120000\r\nDTEND;TZID=America/Chicago:20260116T130000\r\n"
                + "SUMMARY:Dentist\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n",
        };
        var answer = await Answer(request);
        Assert.Equal(64, Assert.Single(answer.GetProperty("departures").EnumerateArray()).GetProperty("distanceKm").GetDouble());
        Assert.Equal("Dentist", Assert.Single(answer.GetProperty("ignored").EnumerateArray()).GetProperty("label").GetString());
    }

    [Fact]
    public async Task Departure_InTheSkippedHour_IsShownShiftedAndWarned()
    {
        // US clocks jumped from 02:00 to 03:00 on 8 March 2026.
        var request = Requests.Schedule();
        request["asOf"] = "2026-03-07T17:30";
        request["calendar"] = JsonNode.Parse("""{ "trips": [{ "departure": "2026-03-08T02:30", "return": "2026-03-08T12:00", "distanceKm": 64 }] }""");
        var answer = await Answer(request);
        var departure = answer.GetProperty("departures")[0];
        Assert.Equal("2026-03-08T03:00:00-05:00", departure.GetProperty("departure").GetString());
        Assert.Equal("2026-03-08T03:30:00", departure.GetProperty("shownDeparture").GetString());
        Assert.Contains(answer.GetProperty("warnings").EnumerateArray(), w => w.GetString()!.Contains("02:30", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{ "temperatureF": 41 }""")]
    [InlineData("""{ "hourly": { "start": "2026-01-14T17:00:00-06:00", "temperatureC": [5, 4, 3] } }""")]
    [InlineData("""{ "monthly": { "lowC": [-10,-8,-2,4,10,15,18,17,12,6,-1,-7], "highC": [0,2,8,15,21,27,29,28,23,16,8,1] } }""")]
    public async Task Schedule_WeatherInAnyForm_IsAnswered(string weather)
    {
        var request = Requests.Schedule();
        request["weather"] = JsonNode.Parse(weather);
        Assert.Equal("ready", (await Answer(request)).GetProperty("outcome").GetString());
    }

    [Fact]
    public async Task Schedule_WithHouseLoadAtTheYearsEnd_IsAnswered()
    {
        var request = Requests.Schedule();
        request["asOf"] = "2026-12-30T18:30";
        request["houseLoad"] = JsonNode.Parse("""{ "annualKwh": 6000 }""");
        Assert.Equal("ready", (await Answer(request)).GetProperty("outcome").GetString());
    }

    private static decimal Amount(JsonElement parent, string name) =>
        decimal.Parse(parent.GetProperty(name).GetProperty("amount").GetString()!, CultureInfo.InvariantCulture);

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/schedules", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        Assert.Equal("application/json; charset=utf-8", response.Content.Headers.ContentType?.ToString());
        return JsonElement.Parse(text);
    }
}
