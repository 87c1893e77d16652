using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Service.Tests.Bills;

public sealed class BillApiTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Bill_OfOneWorkingDay_IsThePencilsFigure()
    {
        // 14 January 2026 is a Wednesday: 07:00 to 21:00 by day. The 24 values of the example add up to 19.9 kWh, 13.1 of them by day.
        var request = Requests.Bill();
        var values = request["series"]!["energyKwh"]!.AsArray().Select(v => v!.GetValue<double>()).ToArray();
        var day = values[7..21].Sum();
        var night = values.Sum() - day;
        var answer = await Answer(request);

        // Customer charge: a thirty-first of 14.50. Energy, adjustment and the 2.5 % tax on the three; each line rounded to a cent.
        static decimal Cents(double amount) => Math.Round((decimal)amount, 2, MidpointRounding.AwayFromZero);
        var before = Cents(14.50 / 31) + Cents(day * 0.198) + Cents(night * 0.082) + Cents((day + night) * 0.0045);
        var expected = before + Cents((double)before * 0.025);
        Assert.Equal(expected.ToString("F2", System.Globalization.CultureInfo.InvariantCulture), answer.GetProperty("total").GetProperty("amount").GetString());
        Assert.Equal("USD", answer.GetProperty("total").GetProperty("currency").GetString());
    }

    [Fact]
    public async Task Bill_WithReadingDates_HasOnePeriodForEach()
    {
        var request = Requests.Bill();
        request["series"]!["intervalMinutes"] = 1440;
        request["readingDates"] = new JsonArray("2026-01-20", "2026-02-01");
        var periods = (await Answer(request)).GetProperty("periods").EnumerateArray().ToArray();
        Assert.Equal(3, periods.Length);
        Assert.Equal("2026-01-20T00:00:00-06:00", periods[1].GetProperty("start").GetString());
    }

    [Theory]
    [InlineData("energyKwh", "[]", "#/series/energyKwh")]
    [InlineData("energyKwh", "[1,-0.001]", "#/series/energyKwh/1")]
    [InlineData("energyKwh", "[1,\"2\"]", "#/series/energyKwh/1")]
    [InlineData("energyKwh", "[1e300]", "#/series/energyKwh/0")]
    [InlineData("intervalMinutes", "0", "#/series/intervalMinutes")]
    [InlineData("intervalMinutes", "7.5", "#/series/intervalMinutes")]
    [InlineData("start", "\"2026-01-14T00:00:00+01:00\"", "#/series/start")]
    [InlineData("start", "\"2026-01-14T00:00:00.5-06:00\"", "#/series/start")]
    public async Task Bill_OfAFaultySeries_NamesTheField(string field, string value, string pointer)
    {
        var request = Requests.Bill();
        request["series"]![field] = JsonNode.Parse(value);
        var problem = await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/bills", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
        Assert.Equal(pointer, Assert.Single(problem.GetProperty("errors").EnumerateArray()).GetProperty("pointer").GetString());
    }

    [Fact]
    public async Task Bill_OnARatePlanInTheRequest_NamesItsFaultsWithinTheRequest()
    {
        var request = Requests.Bill();
        request["ratePlan"] = JsonNode.Parse(await service.CreateClient().GetStringAsync("/v1/rate-plans/example-power-standard"));
        Assert.Equal("request", (await Answer(request)).GetProperty("ratePlan").GetString());

        request["ratePlan"]!["currency"] = "dollars";
        var problem = await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/bills", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
        Assert.Equal("#/ratePlan/currency", problem.GetProperty("errors")[0].GetProperty("pointer").GetString());
    }

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/bills", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
