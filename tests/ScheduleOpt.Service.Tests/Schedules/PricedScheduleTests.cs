using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Service.Tests.Schedules;

/// <summary>Schedules on a rate plan that follows published prices.</summary>
public sealed class PricedScheduleTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Schedule_OnDayAheadPrices_ChargesInTheCheapestHoursAtTheirPrice()
    {
        var answer = await Answer(Requests.PricedSchedule());
        var first = answer.GetProperty("windows")[0];

        // Base and 0.03 day-ahead: (0.124 + 0.1 x 0.03 - 0.004) x 1.04 = 0.12792; two hours of 240 V x 32 A: 15.36 kWh, 1.96.
        Assert.Equal("2026-01-15T02:00:00-05:00", first.GetProperty("start").GetString());
        Assert.Equal("2026-01-15T04:00:00-05:00", first.GetProperty("end").GetString());
        Assert.Equal("1.96", first.GetProperty("cost").GetProperty("amount").GetString());
    }

    [Theory]
    [InlineData(1, "2026-01-16T17:00:00-05:00")]
    [InlineData(3, "2026-01-16T15:00:00-05:00")]
    public async Task Schedule_WithoutItsLastPrices_NamesTheFirstHourMissing(int removed, string first)
    {
        var request = Requests.PricedSchedule();
        var prices = request["prices"]!["day-ahead"]!["pricePerKwh"]!.AsArray();
        for (var i = 0; i < removed; i++)
        {
            prices.RemoveAt(prices.Count - 1);
        }

        var error = Assert.Single((await Problem(request)).GetProperty("errors").EnumerateArray());
        Assert.Equal("#/prices/day-ahead/pricePerKwh", error.GetProperty("pointer").GetString());
        Assert.Contains($"the first without one begins at {first}", error.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schedule_WithAHoleInItsPrices_NamesTheHour()
    {
        var request = Requests.PricedSchedule();
        request["prices"]!["day-ahead"]!["pricePerKwh"]![9] = null;
        var error = Assert.Single((await Problem(request)).GetProperty("errors").EnumerateArray());
        Assert.Contains("begins at 2026-01-15T02:00:00-05:00", error.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schedule_WithoutPrices_IsToldWhichSeriesToAddTogetherWithOtherFaults()
    {
        var request = Requests.PricedSchedule();
        request.Remove("prices");
        request["plugIn"]!["stateOfCharge"] = 2;
        var pointers = (await Problem(request)).GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("pointer").GetString()).Order();
        Assert.Equal(["#/plugIn/stateOfCharge", "#/prices/day-ahead"], pointers);
    }

    [Fact]
    public async Task Schedule_AroundACriticalPeak_StaysOutOfIt()
    {
        // In the evening of 28 July the plan costs 0.85 from 18:00 to 20:00 once the event is called; the car has until 07:30.
        var request = Requests.PricedSchedule();
        request.Remove("prices");
        request["ratePlan"] = new JsonObject { ["id"] = "model-county-peak-aware", ["choices"] = new JsonObject { ["demand control"] = "none" } };
        request["asOf"] = "2026-07-28T17:30:00-04:00";
        request["calendar"] = JsonNode.Parse("""{"trips":[{"departure":"2026-07-28T23:30","return":"2026-07-29T18:00","distanceKm":150},{"departure":"2026-07-30T07:30","return":"2026-07-30T18:00","distanceKm":9}]}""");
        var without = await Answer(request);
        request["events"] = new JsonObject { ["critical peak"] = new JsonArray(new JsonObject { ["from"] = "2026-07-28T18:00", ["to"] = "2026-07-28T20:00" }) };
        var with = await Answer(request);
        Assert.Equal(0, KwhBetween(with, "2026-07-28T18:00:00-04:00", "2026-07-28T20:00:00-04:00"));
        Assert.Equal("ready", with.GetProperty("outcome").GetString());
        Assert.True(Cost(with, "costOnArrival") > Cost(without, "costOnArrival"));
        Assert.Equal(Cost(without, "cost"), Cost(with, "cost"));
    }

    [Fact]
    public async Task Schedule_AskedTwice_HasEqualBytes() =>
        Assert.Equal((await Answer(Requests.PricedSchedule())).GetRawText(), (await Answer(Requests.PricedSchedule())).GetRawText());

    private static decimal Cost(JsonElement answer, string name) =>
        decimal.Parse(answer.GetProperty(name).GetProperty("amount").GetString()!, CultureInfo.InvariantCulture);

    private static double KwhBetween(JsonElement answer, string from, string until) => answer.GetProperty("windows").EnumerateArray()
        .Where(w => string.CompareOrdinal(w.GetProperty("start").GetString(), until) < 0 && string.CompareOrdinal(w.GetProperty("end").GetString(), from) > 0)
        .Sum(w => w.GetProperty("energyKwh").GetDouble());

    private async Task<JsonElement> Problem(JsonObject request) => await ServiceApplication.ProblemOf(
        await service.CreateClient().PostAsync("/v1/schedules", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/schedules", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
