using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Energy charges: periods of tiers by month, weekday or weekend, and hour.</summary>
internal sealed class EnergyPart(
    DatabaseRecord record, IReadOnlyList<IReadOnlyList<PriceTier>> structure, MonthMatrix matrix, CalendarPart calendar, SeasonMonths seasons, string limitDemand)
{
    /// <summary>What tiers of a structure are limited by, in small letters; several words where they disagree.</summary>
    public static string[] Units(IReadOnlyList<IReadOnlyList<PriceTier>> structure) =>
        [.. structure.Where(p => p.Count > 1).SelectMany(p => p).Select(t => t.Unit).Distinct()];

    public void Write(JsonObject document, TierCounting counting)
    {
        var charges = new JsonArray();
        var shared = counting == TierCounting.OverAllPeriods ? SeasonsWithSharedLimits() : [];
        foreach (var group in shared.GroupBy(s => string.Join(',', matrix.PeriodsIn(seasons.All[s].Months[0]))))
        {
            charges.Add(Shared([.. group]));
        }

        foreach (var period in matrix.Periods)
        {
            // The seasons in which the period is priced by itself, by the name that it has in them.
            foreach (var named in calendar.SeasonsOf(period).Where(s => !shared.Contains(s)).GroupBy(s => calendar.Name(s, period)))
            {
                charges.Add(Alone(period, named.Key, [.. named]));
            }
        }

        document["energyCharges"] = charges;
        Report(shared);
    }

    private void Report(HashSet<int> shared)
    {
        var tiered = structure.Any(p => p.Count > 1);
        var limits = shared.Count > 0
                ? ", and their limits count the use of all periods of the month together, each tier divided over them in proportion to their use."
            : calendar.Names.Count > 1 ? ", and their limits count the use of each period by itself."
            : ".";
        record.Report(
            "energyratestructure", tiered ? Carried.WithAssumption : Carried.Yes, tiered ? "Price is rate + adj; tiers are marginal" + limits : "");
        var unused = Enumerable.Range(0, structure.Count).Except(matrix.Periods).ToArray();
        if (unused.Length > 0)
        {
            record.Report("<periods never used>", Carried.No, $"The schedule never uses period {string.Join(", ", unused.Take(20))}.");
        }
    }

    private HashSet<int> SeasonsWithSharedLimits() => [.. Enumerable.Range(0, seasons.All.Count).Where(s =>
    {
        var periods = matrix.PeriodsIn(seasons.All[s].Months[0]).Select(p => structure[p]).ToArray();
        return periods.Length > 1 && periods[0].Count > 1 && periods.All(p => p.Select(t => t.Max).SequenceEqual(periods[0].Select(t => t.Max)));
    })];

    private JsonObject Shared(int[] inSeasons)
    {
        var charge = new JsonObject { ["name"] = "Energy" };
        AddSeasons(charge, inSeasons);
        var names = matrix.PeriodsIn(seasons.All[inSeasons[0]].Months[0]).ToDictionary(p => calendar.Name(inSeasons[0], p), p => structure[p]);
        var first = names.Values.First();
        var blocks = new JsonArray();
        for (var t = 0; t < first.Count; t++)
        {
            // Periods that never hold in these seasons have a price as well, which is never used.
            var prices = new JsonObject();
            foreach (var name in calendar.Names)
            {
                prices[name] = (names.GetValueOrDefault(name) ?? first)[t].Price;
            }

            blocks.Add(Block(first[t], prices));
        }

        AddBlocks(charge, blocks, first);
        return charge;
    }

    private JsonObject Alone(int period, string name, int[] inSeasons)
    {
        var several = calendar.Names.Count > 1;
        var charge = new JsonObject { ["name"] = several || inSeasons.Length < seasons.All.Count ? $"Energy, {name}" : "Energy" };
        // Where a name is the period's own, wherever it holds, the period says it all.
        if (!several || !calendar.SharesNames || inSeasons.Length < calendar.SeasonsOf(period).Count())
        {
            AddSeasons(charge, inSeasons);
        }

        if (several)
        {
            charge["periods"] = new JsonArray(name);
        }

        var tiers = structure[period];
        if (tiers.Count == 1)
        {
            charge["pricePerKwh"] = tiers[0].Price;
        }
        else
        {
            AddBlocks(charge, new JsonArray([.. tiers.Select(t => (JsonNode)Block(t, t.Price))]), tiers);
        }

        return charge;
    }

    private void AddSeasons(JsonObject charge, int[] inSeasons)
    {
        if (inSeasons.Length < seasons.All.Count)
        {
            charge["seasons"] = new JsonArray([.. inSeasons.Select(s => (JsonNode)seasons.All[s].Name)]);
        }
    }

    private void AddBlocks(JsonObject charge, JsonArray blocks, IReadOnlyList<PriceTier> tiers)
    {
        if (tiers[0].Unit == "kwh/kw")
        {
            charge["limitDemand"] = limitDemand;
        }
        else
        {
            charge["limitPer"] = tiers[0].Unit == "kwh daily" ? "day" : "month";
        }

        charge["blocks"] = blocks;
    }

    private static JsonObject Block(PriceTier tier, JsonNode price)
    {
        var block = new JsonObject();
        if (tier.Max is { } max)
        {
            block[tier.Unit == "kwh/kw" ? "upToKwhPerKw" : "upToKwh"] = max;
        }

        block["pricePerKwh"] = price;
        return block;
    }
}
