using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Demo;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Service.Tests.Schedules;

/// <summary>Whatever the rate plan, a car that could be ready by charging on arrival is ready: no plan's charges make the search give up.</summary>
public sealed class EveryPlanScheduleTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    // Both follow published prices, which the request does not have.
    private static readonly string[] Priced = ["model-county-solar-home", "model-county-subscription"];

    public static TheoryData<string, int, int> Cases()
    {
        var cases = new TheoryData<string, int, int>();
        foreach (var plan in RatePlanLibrary.Ids.Except(Priced))
        {
            foreach (var cars in new[] { 1, 2 })
            {
                foreach (var days in new[] { 2, 7 })
                {
                    cases.Add(plan, cars, days);
                }
            }
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task Schedule_OfTheDemoHouseholdOnALargerCircuit_IsReady(string plan, int cars, int days)
    {
        var request = JsonNode.Parse(DemoHousehold.TonightJson)!.AsObject();
        var car = new JsonObject { ["name"] = "first" };
        foreach (var part in new[] { "vehicle", "supply", "plugIn", "calendar" })
        {
            car[part] = request[part]!.DeepClone();
            request.Remove(part);
        }

        car["supply"]!["breakerA"] = 50;
        request["cars"] = new JsonArray(car);
        if (cars == 2)
        {
            var other = car.DeepClone();
            other["name"] = "second";
            other["plugIn"]!["stateOfCharge"] = 0.5;
            request["cars"]!.AsArray().Add(other);
        }

        request["ratePlan"] = plan;
        request["options"]!["horizonDays"] = days;
        request["options"]!["explain"] = false;
        var response = await service.CreateClient().PostAsync("/v1/schedules", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        Assert.Equal("ready", JsonElement.Parse(text).GetProperty("outcome").GetString());
    }
}
