using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Service.Documentation;

namespace ScheduleOpt.Service.Tests.Comparisons;

public sealed class DecisionApiTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task Decision_OfTheExample_MoneyAddsUpAndTodayIsTheReference()
    {
        var answer = await Answer(Example());
        var cells = answer.GetProperty("cells").EnumerateArray().ToArray();
        var today = cells.Single(c => IsCell(c, "The outlet that is there", "example-power-standard", "onArrival")).GetProperty("lifeCycle");
        Assert.Equal(0m, Amount(today, "netSavings"));
        Assert.Equal("nothingToPayBack", today.GetProperty("simplePayback").GetProperty("outcome").GetString());
        foreach (var cell in cells.Select(c => c.GetProperty("lifeCycle")))
        {
            // 10 CFR 436.19 and 436.20; each figure is rounded to the cent on its own.
            Assert.InRange(
                Amount(cell, "investment") - Amount(cell, "incentives") + Amount(cell, "energy") + Amount(cell, "replacement") - Amount(cell, "salvage")
                    - Amount(cell, "cost"),
                -0.03m,
                0.03m);
            Assert.InRange(Amount(today, "cost") - Amount(cell, "cost") - Amount(cell, "netSavings"), -0.01m, 0.01m);
        }

        foreach (var why in answer.GetProperty("why").EnumerateArray())
        {
            Assert.Equal(Amount(why, "difference"), why.GetProperty("steps").EnumerateArray().Sum(s => Amount(s, "amount")));
        }
    }

    [Fact]
    public async Task Decision_HardwiredUnit_FirstCostLessRebateAndEnergyByHand()
    {
        var answer = await Answer(Example());
        var cell = answer.GetProperty("cells").EnumerateArray().Single(c => IsCell(c, "Hardwired unit", "example-power-standard", "onArrival"));
        var money = cell.GetProperty("lifeCycle");

        // 650 + 980 + 120, and the rebate in force on 1 January 2026.
        Assert.Equal(1750.00m, Amount(money, "investment"));
        Assert.Equal(250.00m, Amount(money, "incentives"));

        // UPV* of 1 % escalation at 3 % over 10 years: the sum of (1.01/1.03)^t = q (1 - q^10) / (1 - q) = 9.00 by hand. The unit's standby, 8.5 W, stands in the
        // energy beside bill and away charging: at most 75 kWh a year.
        var q = 1.01m / 1.03m;
        var power = 1m;
        for (var t = 0; t < 10; t++)
        {
            power *= q;
        }

        var factor = q * (1 - power) / (1 - q);
        var perYear = Amount(money, "energy") / factor;
        Assert.InRange(perYear - Amount(cell, "wholeHouseCost"), 5m, 75m * 0.40m);
        Assert.Equal(100m, answer.GetProperty("setUps")[1].GetProperty("panel").GetProperty("serviceKva").GetDecimal() / 0.24m);

        // NEC 220.83: 8 kVA and 40 % of the other 18.5 kVA are 15.4 kVA; a unit of 40 A at 240 V is 9.6 kVA; the 100 A service's 24 kVA are 1 kVA too few.
        // The 8.6 kVA that are left of it would take 35 A.
        var panel = answer.GetProperty("setUps")[1].GetProperty("panel");
        Assert.Equal((15.4m, 9.6m, -1m), (
            panel.GetProperty("houseKva").GetDecimal(), panel.GetProperty("chargingKva").GetDecimal(), panel.GetProperty("leftKva").GetDecimal()));
        Assert.Equal(35, panel.GetProperty("loadManagement").GetProperty("currentA").GetInt32());
        Assert.Contains("never a clearance", panel.GetProperty("caution").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Decision_RebateThatHasEnded_IsListedAndCountsNothing()
    {
        var request = Small();
        request["lifeCycle"]!["baseDate"] = "2026-07-01";
        var answer = await Answer(request);
        Assert.False(answer.GetProperty("setUps")[1].GetProperty("incentives")[0].GetProperty("inForce").GetBoolean());
        Assert.All(answer.GetProperty("cells").EnumerateArray(), c => Assert.Equal(0m, Amount(c.GetProperty("lifeCycle"), "incentives")));
    }

    [Fact]
    public async Task Decision_Scenario_HasTheValueThatItOverridesAndListsIt()
    {
        var request = Small();
        request["scenario"] = JsonNode.Parse("""
            {"name":"Shorter days","author":"A","overrides":[{"field":"#/calendar/trips/0/distanceKm","value":32,"note":"moved nearer"},
            {"field":"#/vehicle/constants/overheadKw","value":0.5,"note":"measured","author":"B"}]}
            """);
        var overridden = await Answer(request);
        var list = overridden.GetProperty("scenario").GetProperty("overrides").EnumerateArray().ToArray();
        Assert.Equal(("64", "A"), (list[0].GetProperty("was").GetString(), list[0].GetProperty("author").GetString()));
        Assert.Equal((JsonValueKind.Null, "B"), (list[1].GetProperty("was").ValueKind, list[1].GetProperty("author").GetString()));

        var plain = Small();
        plain["calendar"]!["trips"]![0]!["distanceKm"] = 32;
        plain["vehicle"]!["constants"] = new JsonObject { ["overheadKw"] = 0.5 };
        plain.Remove("scenario");
        Assert.Equal((await Answer(plain)).GetProperty("cells").GetRawText(), overridden.GetProperty("cells").GetRawText());
    }

    [Fact]
    public async Task Decision_EqualRequestsLaidOutOtherwise_HaveOneHashAndEqualAnswers()
    {
        var request = Small();
        var turned = new JsonObject(request.Reverse().Select(p => KeyValuePair.Create(p.Key, p.Value?.DeepClone())));
        using var client = service.CreateClient();
        var one = await (await client.PostAsync("/v1/comparisons", Requests.Json(request.ToJsonString(new JsonSerializerOptions { WriteIndented = true })))).Content
            .ReadAsStringAsync();
        var other = await (await client.PostAsync("/v1/comparisons", Requests.Json(turned))).Content.ReadAsStringAsync();
        Assert.Equal(one, other);
        request["awayCharging"]!["pricePerKwh"] = 0.49;
        Assert.NotEqual(JsonElement.Parse(one).GetProperty("inputHash").GetString(), (await Answer(request)).GetProperty("inputHash").GetString());
    }

    [Theory]
    [InlineData("setUps", """[{"readyMade":"none-such"}]""", "#/setUps/0/readyMade")]
    [InlineData("setUps", """[{"readyMade":"public-only","firstCost":{"unit":5}}]""", "#/setUps/0/firstCost/unit")]
    [InlineData("setUps", """[{"readyMade":"outlet-120v-15a","firstCost":{"panel":5}}]""", "#/setUps/0/firstCost/panel")]
    [InlineData("setUps", """[{"readyMade":"hardwired-240v-40a","firstCost":{"unit":-1}}]""", "#/setUps/0/firstCost/unit")]
    [InlineData("setUps", """[{"readyMade":"hardwired-240v-40a","lifetimeYears":41}]""", "#/setUps/0/lifetimeYears")]
    [InlineData("setUps", """[{"readyMade":"hardwired-240v-40a","incentives":[{"name":"a","amount":1,"asOf":"2026-01-01"}]}]""", "#/setUps/0/incentives/0/source")]
    [InlineData("setUps", """[{"readyMade":"hardwired-240v-40a","incentives":[{"name":"a","amount":1,"source":"s","asOf":"soon"}]}]""", "#/setUps/0/incentives/0/asOf")]
    [InlineData("today", """{"setUp":"none","ratePlan":"example-power-standard","behaviour":"onArrival"}""", "#/today/setUp")]
    [InlineData("today", """{"setUp":"Hardwired unit","ratePlan":"example-power-standard"}""", "#/today/behaviour")]
    [InlineData("today", "null", "#/today")]
    [InlineData("lifeCycle", """{"studyYears":41}""", "#/lifeCycle/studyYears")]
    [InlineData("lifeCycle", """{"studyYears":10,"realDiscountRate":0.2}""", "#/lifeCycle/realDiscountRate")]
    [InlineData("lifeCycle", """{"studyYears":10,"loan":{"nominalRate":0.05}}""", "#/lifeCycle/loan/inflation")]
    [InlineData("panel", """{"serviceA":100}""", "#/panel")]
    [InlineData("panel", """{"serviceA":100,"metered":{"intervalMinutes":7,"averageKw":[1],"generation":false,"storage":false,"peakLimiting":false}}""", "#/panel/metered/intervalMinutes")]
    [InlineData("panel", """{"serviceA":100,"loads":[{"name":"a","kva":101,"kind":"general"}]}""", "#/panel/loads/0/kva")]
    [InlineData("scenario", """{"name":"s","overrides":[{"field":"#/year","value":2027,"note":"n"}]}""", "#/scenario/overrides/0/author")]
    [InlineData("scenario", """{"name":"s","author":"a","overrides":[{"field":"year","value":2027,"note":"n"}]}""", "#/scenario/overrides/0/field")]
    [InlineData("scenario", """{"name":"s","author":"a","overrides":[{"field":"#/calendar/trips/9/distanceKm","value":1,"note":"n"}]}""", "#/scenario/overrides/0/field")]
    [InlineData("scenario", """{"name":"s","author":"a","overrides":[{"field":"#/scenario/name","value":"b","note":"n"}]}""", "#/scenario/overrides/0/field")]
    [InlineData("scenario", """{"name":"s","author":"a","overrides":[{"field":"#/year","value":[1],"note":"n"}]}""", "#/scenario/overrides/0/value")]
    [InlineData("scenario", """{"name":"s","author":"a","overrides":[{"field":"#/no-such","value":1,"note":"n"}]}""", "#/no-such")]
    [InlineData("scenario", """{"name":"s","author":"a","overrides":[{"field":"#/vehicle/usableEnergyKwh","value":-5,"note":"n"}]}""", "#/vehicle/usableEnergyKwh")]
    [InlineData("options", """{"breakEvens":"yes"}""", "#/options/breakEvens")]
    public async Task Decision_WithAFault_NamesTheField(string field, string value, string pointer)
    {
        var request = Small();
        request[field] = JsonNode.Parse(value);
        var problem = await ServiceApplication.ProblemOf(
            await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request)), HttpStatusCode.UnprocessableEntity);
        Assert.Contains(problem.GetProperty("errors").EnumerateArray(), e => e.GetProperty("pointer").GetString() == pointer);
    }

    [Fact]
    public async Task Decision_HourlyMeteredDemand_CannotDecideAndSaysWhy()
    {
        var request = Small();
        request["panel"] = new JsonObject
        {
            ["serviceA"] = 200,
            ["metered"] = new JsonObject
            {
                ["intervalMinutes"] = 60,
                ["averageKw"] = new JsonArray([.. Enumerable.Repeat(2, 8760).Select(v => JsonValue.Create(v))]),
                ["generation"] = true,
                ["storage"] = false,
                ["peakLimiting"] = false,
            },
        };
        var panel = (await Answer(request)).GetProperty("setUps")[1].GetProperty("panel");
        Assert.Equal("cannotDecide", panel.GetProperty("outcome").GetString());
        var reasons = string.Join(' ', panel.GetProperty("reasons").EnumerateArray().Select(r => r.GetString()));
        Assert.Contains("60 minutes can't decide", reasons, StringComparison.Ordinal);
        Assert.Contains("Generation is behind the meter", reasons, StringComparison.Ordinal);
    }

    internal static JsonObject Example() => (JsonObject)ApiSchemas.Example("comparison-decision");

    /// <summary>The example without what runs the year again.</summary>
    internal static JsonObject Small()
    {
        var request = Example();
        request["options"] = new JsonObject { ["gridMinutes"] = 60 };
        request.Remove("panel");
        request["behaviours"] = new JsonArray("onArrival");
        return request;
    }

    private static bool IsCell(JsonElement cell, string setUp, string plan, string behaviour) =>
        cell.GetProperty("setUp").GetString() == setUp && cell.GetProperty("ratePlan").GetString() == plan
        && cell.GetProperty("behaviour").GetString() == behaviour;

    private static decimal Amount(JsonElement parent, string name) =>
        decimal.Parse(parent.GetProperty(name).GetProperty("amount").GetString()!, CultureInfo.InvariantCulture);

    private async Task<JsonElement> Answer(JsonObject request)
    {
        var response = await service.CreateClient().PostAsync("/v1/comparisons", Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
