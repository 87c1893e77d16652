using System.Text.Json.Nodes;
using NodaTime.Text;
using ScheduleOpt.Interchange.Demo;
using ScheduleOpt.Interchange.HouseLoads;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>The questions of the demo household.</summary>
internal static class DemoRequests
{
    /// <summary>What faults in them are told under.</summary>
    public const string Source = "demo ";

    /// <summary>The rate plan of tonight's question.</summary>
    public const string RatePlanId = "example-power-day-and-night";

    /// <summary>Tonight's question.</summary>
    public static JsonObject Tonight() => JsonNode.Parse(DemoHousehold.TonightJson)!.AsObject();

    /// <summary>The year's question: every whole-house rate plan that comes with the program and needs nothing beside it.</summary>
    public static JsonObject Year()
    {
        var request = JsonNode.Parse(DemoHousehold.YearJson)!.AsObject();
        var currency = RatePlanLibrary.Find(RatePlanId)!.Currency;
        var zone = DemoHousehold.Zone.Zone.Id;
        var plans = RatePlanLibrary.All.Where(p =>
            p.Metering == Metering.WholeHouse && p.Currency == currency && p.Zone.Id == zone && p.PriceSeriesNames.Count == 0);
        request["ratePlans"] = new JsonArray([.. plans.Select(p => (JsonNode)JsonValue.Create(p.Id))]);
        return request;
    }

    /// <summary>The year's question with the two behaviours that the demo shows.</summary>
    public static JsonObject YearAtAGlance()
    {
        var request = Year();
        request["behaviours"] = new JsonArray("leastCostKnownAhead", "onArrival");
        request.Remove("fixedStart");
        return request;
    }

    /// <summary>The bill of the house without its car over the year.</summary>
    public static JsonObject Bill()
    {
        var zone = DemoHousehold.Zone;
        var load = HouseLoadShape.OnYear(HouseLoadShape.Scale(DemoHousehold.AnnualHouseKwh), DemoHousehold.Year, zone);
        return new JsonObject
        {
            ["ratePlan"] = RatePlanId,
            ["series"] = new JsonObject
            {
                ["start"] = InstantPattern.General.Format(load.Start),
                ["intervalMinutes"] = 60,
                ["energyKwh"] = new JsonArray([.. load.HourlyKwh.Select(kwh => (JsonNode)JsonValue.Create(kwh))]),
            },
        };
    }
}
