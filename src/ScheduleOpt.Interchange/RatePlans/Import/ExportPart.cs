using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>What exported energy is worth.</summary>
internal static class ExportPart
{
    public static void Write(
        DatabaseRecord record, IReadOnlyList<IReadOnlyList<PriceTier>> structure, MonthMatrix matrix, CalendarPart calendar, SeasonMonths seasons, JsonObject document)
    {
        var sells = structure.Any(p => p.Any(t => t.Sell is not null and not 0));
        var rules = record.Text("dgrules", 40);
        if (rules.Length == 0 && record.Find("usenetmetering")?.ValueKind == System.Text.Json.JsonValueKind.True)
        {
            rules = "Net Metering";
        }

        switch (rules)
        {
            case "Net Metering":
                document["export"] = new JsonObject { ["kind"] = "netMetering" };
                record.Report(record.Has("dgrules") ? "dgrules" : "usenetmetering", Carried.WithAssumption,
                    "Exported kWh offset used ones, pooled over all periods, and are carried on; the database does not say when a bank ends or what it is paid.");
                break;
            case "Net Billing Instantaneous" or "Net Billing Hourly" when sells:
                document["export"] = new JsonObject
                {
                    ["kind"] = "netBilling",
                    ["nettingMinutes"] = rules == "Net Billing Hourly" ? 60 : 0,
                    ["prices"] = Prices(structure, matrix, calendar, seasons),
                };
                record.Report("dgrules", Carried.WithAssumption, "Credit stands on the same bill, which may fall below zero"
                    + (rules == "Net Billing Instantaneous" ? "; the metering interval is the shortest netting." : "."));
                break;
            case "":
                record.Covered("usenetmetering");
                if (sells)
                {
                    record.Report("<sell>", Carried.No,
                        "There are prices for exported energy and no rule for netting it (dgrules); export is worth nothing.");
                }

                return;
            default:
                record.Report("dgrules", Carried.No, rules.StartsWith("Net Billing", StringComparison.Ordinal)
                    ? "There is no price for exported energy (sell); export is worth nothing."
                    : $"'{rules}' needs a second meter; export is worth nothing.");
                return;
        }

        record.Covered("usenetmetering");
        if (structure.Any(p => p.Select(t => t.Sell ?? 0).Distinct().Count() > 1))
        {
            record.Report("<sell by tier>", Carried.WithAssumption, "Export is paid the price of the first tier.");
        }
    }

    private static JsonArray Prices(IReadOnlyList<IReadOnlyList<PriceTier>> structure, MonthMatrix matrix, CalendarPart calendar, SeasonMonths seasons)
    {
        var prices = new JsonArray();
        foreach (var period in matrix.Periods.Where(p => structure[p][0].Sell is not null and not 0))
        {
            foreach (var named in calendar.SeasonsOf(period).GroupBy(s => calendar.Name(s, period)))
            {
                var several = calendar.Names.Count > 1;
                var price = new JsonObject { ["name"] = several ? $"Export, {named.Key}" : "Export" };
                if ((!several || !calendar.SharesNames) && named.Count() < seasons.All.Count)
                {
                    price["seasons"] = new JsonArray([.. named.Select(s => (JsonNode)seasons.All[s].Name)]);
                }

                if (several)
                {
                    price["periods"] = new JsonArray(named.Key);
                }

                price["pricePerKwh"] = structure[period][0].Sell;
                prices.Add(price);
            }
        }

        return prices;
    }
}
