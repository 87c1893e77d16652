using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.Tests.RatePlanImport;

/// <summary>Records in the form of the open US rate database; the utilities and prices are invented.</summary>
internal static class Records
{
    public static JsonArray Matrix(Func<int, int, int> period) =>
        new([.. Enumerable.Range(0, 12).Select(m => (JsonNode)new JsonArray([.. Enumerable.Range(0, 24).Select(h => (JsonNode)period(m, h))]))]);

    public static JsonObject Tier(decimal rate, decimal? max = null, decimal? adj = null, decimal? sell = null, string? unit = "kWh")
    {
        var tier = new JsonObject { ["rate"] = rate };
        if (max is not null)
        {
            tier["max"] = max;
        }

        if (adj is not null)
        {
            tier["adj"] = adj;
        }

        if (sell is not null)
        {
            tier["sell"] = sell;
        }

        if (unit is not null)
        {
            tier["unit"] = unit;
        }

        return tier;
    }

    public static JsonArray Structure(params JsonObject[][] periods) =>
        new([.. periods.Select(p => (JsonNode)new JsonArray([.. p.Select(t => (JsonNode)t)]))]);

    /// <summary>One price at all hours and a fixed charge.</summary>
    public static JsonObject Flat() => new()
    {
        ["label"] = "539fc010ec4f024c27d8a5d9",
        ["utility"] = "Example Power (invented)",
        ["name"] = "Residential",
        ["uri"] = "https://openei.org/apps/USURDB/rate/view/539fc010ec4f024c27d8a5d9",
        ["sector"] = "Residential",
        ["startdate"] = 1_767_225_600,
        ["energyratestructure"] = Structure([Tier(0.10m, adj: 0.02m)]),
        ["energyweekdayschedule"] = Matrix((_, _) => 0),
        ["energyweekendschedule"] = Matrix((_, _) => 0),
        ["fixedchargefirstmeter"] = 10.5m,
        ["fixedchargeunits"] = "$/month",
    };

    /// <summary>Everything at once: seasons, two periods on weekdays in summer, tiers, demand of both kinds, a ratchet, export.</summary>
    public static JsonObject Rich()
    {
        var record = Flat();
        record["description"] = "Time of use.\nInvented.";
        record["energycomments"] = "Holidays are off-peak.";
        record["enddate"] = 1_798_675_200;
        record["voltageminimum"] = 120;
        record["approved"] = true;
        record["energyratestructure"] = Structure(
            [Tier(0.10m, 500, 0.01m, 0.04m), Tier(0.14m, sell: 0.04m)],
            [Tier(0.20m, 500, 0.01m, 0.06m), Tier(0.28m, sell: 0.06m)],
            [Tier(0.09m)]);
        record["energyweekdayschedule"] = Matrix((m, h) => m is >= 5 and <= 8 ? (h is >= 14 and < 19 ? 1 : 0) : 2);
        record["energyweekendschedule"] = Matrix((m, _) => m is >= 5 and <= 8 ? 0 : 2);
        record["fueladjustmentsmonthly"] = new JsonArray([.. Enumerable.Range(0, 12).Select(m => (JsonNode)(m < 6 ? 0.001m : 0.002m))]);
        record["flatdemandunit"] = "kW";
        record["flatdemandstructure"] = Structure([Tier(3m, unit: null)], [Tier(0, 5, unit: null), Tier(4m, unit: null)]);
        record["flatdemandmonths"] = new JsonArray(0, 0, 0, 0, 0, 1, 1, 1, 1, 0, 0, 0);
        record["demandrateunit"] = "kW";
        record["demandratestructure"] = Structure([Tier(0, unit: null)], [Tier(6m, adj: 0.5m, unit: null)]);
        record["demandweekdayschedule"] = Matrix((m, h) => m is >= 5 and <= 8 && h is >= 12 and < 20 ? 1 : 0);
        record["demandweekendschedule"] = Matrix((_, _) => 0);
        record["demandwindow"] = 60;
        record["demandratchetpercentage"] = new JsonArray([.. Enumerable.Range(0, 12).Select(_ => (JsonNode)0.35m)]);
        record["dgrules"] = "Net Billing Hourly";
        record["mincharge"] = 12m;
        record["minchargeunits"] = "$/month";
        record["energyattrs"] = new JsonArray(new JsonObject { ["State tax"] = "3 %" });
        record["coincidentrateunit"] = "kW";
        return record;
    }
}
