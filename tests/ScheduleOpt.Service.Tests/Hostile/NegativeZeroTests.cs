using System.Net;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Service.Tests.Hostile;

/// <summary>JSON can write a negative zero (RFC 8259, section 6: an optional minus sign before any number): it is zero.</summary>
public sealed class NegativeZeroTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Theory]
    [InlineData("houseLoad/annualKwh")]
    [InlineData("weather/temperatureC")]
    [InlineData("vehicle/temperatureSensitivity")]
    [InlineData("vehicle/consumptionSpread")]
    [InlineData("vehicle/minimumStateOfCharge")]
    [InlineData("supply/otherLoadA")]
    [InlineData("plugIn/stateOfCharge")]
    [InlineData("options/usedSoFarKwh")]
    [InlineData("carbon/pricePerTonne")]
    public async Task Field_OfNegativeZero_IsAnsweredAsZero(string path) =>
        Assert.Equal(await Answer("/v1/schedules", Schedule(), path, "0"), await Answer("/v1/schedules", Schedule(), path, "-0.0"));

    [Fact]
    public async Task Price_OfNegativeZero_IsAnsweredAsZero()
    {
        const string First = "prices/day-ahead/pricePerKwh/0";
        Assert.Equal(await Answer("/v1/schedules", Requests.PricedSchedule(), First, "0"), await Answer("/v1/schedules", Requests.PricedSchedule(), First, "-0.0"));
    }

    [Fact]
    public async Task RatePlanDocument_OfNegativeZero_IsAnsweredAsZero()
    {
        var request = Requests.Bill();
        request["ratePlan"] = JsonNode.Parse(await service.CreateClient().GetStringAsync("/v1/rate-plans/example-power-three-seasons"));
        const string Overnight = "ratePlan/energyCharges/5/pricePerKwh";
        Assert.Equal(await Answer("/v1/bills", request, Overnight, "0"), await Answer("/v1/bills", request, Overnight, "-0.0"));
    }

    private static JsonObject Schedule()
    {
        var request = Requests.Schedule();
        request["houseLoad"] = new JsonObject { ["annualKwh"] = 6000 };
        request["weather"] = new JsonObject { ["temperatureC"] = 4 };
        request["carbon"] = new JsonObject { ["pricePerTonne"] = 20, ["gramsPerKwh"] = 400 };
        return request;
    }

    private async Task<string> Answer(string route, JsonObject request, string path, string zero)
    {
        var root = request.DeepClone();
        Requests.Set(root, path, JsonNode.Parse(zero));
        var response = await service.CreateClient().PostAsync(route, Requests.Json(root));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return text;
    }
}
