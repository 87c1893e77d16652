using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Service.Documentation;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Service.Tests.Comparisons;

/// <summary>A cell's bill is the one that <c>/v1/bills</c> gives for the metered year it was simulated with.</summary>
public sealed class CellBillTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    public static TheoryData<string> EveryPlan => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(EveryPlan))]
    public async Task Comparison_OnAnyPlan_BillsACellAsTheBillCallDoes(string id)
    {
        var plan = RatePlanLibrary.Find(id)!;
        var request = Request(plan);
        var cells = (await Answer("/v1/comparisons", request)).GetProperty("cells").EnumerateArray().Where(c => c.GetProperty("ratePlan").GetString() == id).ToArray();
        var question = ComparisonRequestReader.Read(JsonText.Read(request.ToJsonString()).Value).Value.Case;
        var frame = new YearFrame(question);
        var setUp = new SetUpYear(frame, question.SetUps[0]);
        var house = PlanYear.Of(frame, question.RatePlans[0]);
        var year = plan.Metering == Metering.WholeHouse ? house : PlanYear.OfCarMeter(frame, question.RatePlans[1], house);
        var houseAlone = plan.Metering == Metering.WholeHouse ? 0 : Total(await Answer("/v1/bills", Bill(request, plan.HousePlan!, frame.House)));

        Assert.Equal(question.Behaviours.Count, cells.Length);
        foreach (var behaviour in question.Behaviours)
        {
            var run = behaviour switch
            {
                UnaidedBehaviour unaided => YearRun.Of(frame, setUp.Unpriced, unaided),
                LeastCostByNight byNight => YearRun.ByNight(frame, setUp, year, byNight),
                _ => KnownAheadYear.Run(frame, setUp, year),
            };
            var metered = plan.Metering == Metering.WholeHouse ? frame.House.Plus(run.Car) : run.Car;
            var billed = houseAlone + Total(await Answer("/v1/bills", Bill(request, id, metered)));
            var cell = cells.Single(c => c.GetProperty("behaviour").GetString() == behaviour.Name);

            Assert.Equal(billed, Total(cell.GetProperty("billWithCar")));
        }
    }

    private static JsonObject Request(RatePlan plan)
    {
        var request = (JsonObject)ApiSchemas.Example("comparison");
        request["timeZone"] = plan.Zone.Id;
        request["setUps"] = new JsonArray(request["setUps"]![1]!.DeepClone());
        request["ratePlans"] = plan.Metering == Metering.WholeHouse ? new JsonArray(plan.Id) : new JsonArray(plan.HousePlan, plan.Id);
        request["behaviours"] = new JsonArray("onArrival", "fixedStart", "byDeparture", "leastCostKnownAhead", "leastCostByNight");
        request["options"] = new JsonObject { ["gridMinutes"] = 60 };
        var house = plan.Metering == Metering.WholeHouse ? plan : RatePlanLibrary.Find(plan.HousePlan!)!;
        string[] series = [.. plan.For(null).PriceSeriesNames.Union(house.For(null).PriceSeriesNames)];
        if (series.Length > 0)
        {
            request["prices"] = new JsonObject(series.Select(name => KeyValuePair.Create(name, (JsonNode?)new JsonObject
            {
                ["start"] = "2026-01-01T00:00",
                ["intervalMinutes"] = 60,
                ["pricePerKwh"] = new JsonArray([.. Enumerable.Range(0, 8760).Select(h => (JsonNode)JsonValue.Create(0.01m * (h % 24)))]),
            })));
        }

        return request;
    }

    private static JsonObject Bill(JsonObject comparison, string plan, MeteredSeries metered)
    {
        var bill = new JsonObject
        {
            ["ratePlan"] = plan,
            ["series"] = new JsonObject
            {
                ["start"] = metered.Start.InZone(RatePlanLibrary.Find(plan)!.Zone).ToOffsetDateTime().ToString("uuuu-MM-dd'T'HH:mm:sso<+HH:mm>", CultureInfo.InvariantCulture),
                ["intervalMinutes"] = 60,
                ["energyKwh"] = new JsonArray([.. metered.MicroKilowattHours.ToArray().Select(u => (JsonNode)JsonValue.Create((decimal)u / MeteredSeries.UnitsPerKilowattHour))]),
            },
        };
        var series = RatePlanLibrary.Find(plan)!.For(null).PriceSeriesNames;
        if (series.Count > 0)
        {
            bill["prices"] = new JsonObject(series.Select(name => KeyValuePair.Create(name, (JsonNode?)comparison["prices"]![name]!.DeepClone())));
        }

        return bill;
    }

    private static decimal Total(JsonElement bill) => decimal.Parse(bill.GetProperty("total").GetProperty("amount").GetString()!, CultureInfo.InvariantCulture);

    private async Task<JsonElement> Answer(string path, JsonObject request)
    {
        var response = await service.CreateClient().PostAsync(path, Requests.Json(request));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        return JsonElement.Parse(text);
    }
}
