using System.Text.Json.Nodes;

namespace ScheduleOpt.SecondBiller;

/// <summary>Energy charges and adjustments per kWh, export prices.</summary>
internal static class EnergyLines
{
    public static void AddEnergy(this StatementSheet sheet, string field, string part)
    {
        // "A charge per kWh ... with covered use always has a line, even where it has no covered days".
        foreach (var charge in sheet.Context.There(field))
        {
            var layer = part == Parts.EnergyCharge ? charge.Text("layer") ?? "energy" : null;
            var covered = sheet.Pieces.Where(piece => sheet.Period.Covers(charge, piece)).ToList();
            foreach (var amount in Amounts(sheet, charge, covered))
            {
                sheet.Add(part, charge.Text("name")!, amount, layer);
            }
        }
    }

    /// <summary>"Export credits: - price x energy, a line for each price." "each price in `prices` is paid for the export (after step 2) that it covers, times `lossFactor`."</summary>
    public static void AddExportCredits(this StatementSheet sheet)
    {
        if (sheet.Context.Plan.Child("export") is not { } export || export.Text("kind") != "netBilling")
        {
            return;
        }

        foreach (var price in sheet.Context.There(export, "prices"))
        {
            var covered = sheet.Pieces.Where(piece => sheet.Period.Covers(price, piece)).ToList();
            if (price.List("blocks").ToList() is { Count: > 0 } blocks)
            {
                // "in `blocks` the exported energy that the price covers fills them like the use of an energy charge, a line for each block"
                var limits = Limits(sheet, price, blocks);
                decimal exported = Rounded.Kwh(covered.Sum(piece => piece.Export)), below = 0;
                for (var index = 0; below < exported; index++)
                {
                    var upTo = Math.Min(exported, limits[index]);
                    sheet.Add(Parts.ExportCredit, price.Text("name")!, -(upTo - below) * LossFactor(price) * Price(blocks[index], ""));
                    below = upTo;
                }

                continue;
            }

            var amount = price.Child("hourlyPrice") is { } hourly
                ? covered.Sum(piece => Rounded.Kwh(piece.Export) * LossFactor(price) * sheet.Context.PriceAt(hourly, piece.Start))
                : Rounded.Kwh(covered.Sum(piece => piece.Export)) * LossFactor(price) * price.Number("pricePerKwh")!.Value;
            sheet.Add(Parts.ExportCredit, price.Text("name")!, -amount);
        }
    }

    private static decimal LossFactor(JsonObject charge) => charge.Number("lossFactor") ?? 1;

    private static IEnumerable<decimal> Amounts(StatementSheet sheet, JsonObject charge, List<Piece> covered)
    {
        var loss = LossFactor(charge);
        var use = covered.Sum(piece => piece.Import);
        if (charge.Number("pricePerKwh") is { } flat)
        {
            // "Flat: covered use x `lossFactor` x price."
            return [Rounded.Kwh(use) * loss * flat];
        }

        if (charge.Child("hourlyPrice") is { } hourly)
        {
            // "amount = sum of covered use x lossFactor x price"
            return [covered.Sum(piece => Rounded.Kwh(piece.Import) * loss * sheet.Context.PriceAt(hourly, piece.Start))];
        }

        var blocks = charge.List("blocks").ToList();
        var limits = Limits(sheet, charge, blocks);
        if (charge.Flag("wholeUse"))
        {
            // "wholeUse: all the use is at the price of the first block whose limit is not below it."
            var block = blocks[limits.FindIndex(limit => limit >= Rounded.Kwh(use))];
            return block["pricePerKwh"] is not JsonObject
                ? [Rounded.Kwh(use) * loss * Price(block, "")]
                : ByPeriod(charge, covered).Select(period => Rounded.Kwh(period.Use) * loss * Price(block, period.Name));
        }

        return charge.Text("fill") == "inTimeOrder"
            ? InTimeOrder(charge, blocks, limits, covered, loss)
            : InProportion(charge, blocks, limits, covered, loss);
    }

    /// <summary>"of a block's energy w, a period with use u of the charge's total U has w x u / U (12 decimals)"; a block with one price is not split.</summary>
    private static IEnumerable<decimal> InProportion(JsonObject charge, List<JsonObject> blocks, List<decimal> limits, List<Piece> covered, decimal loss)
    {
        var total = Rounded.Kwh(covered.Sum(piece => piece.Import));
        decimal below = 0;
        for (var index = 0; index < blocks.Count; index++)
        {
            var energy = Math.Min(total, limits[index]) - below;
            if (energy <= 0)
            {
                continue;
            }

            below += energy;
            if (blocks[index]["pricePerKwh"] is not JsonObject)
            {
                yield return energy * loss * Price(blocks[index], "");
                continue;
            }

            foreach (var (period, use) in ByPeriod(charge, covered))
            {
                yield return Rounded.To12(energy * Rounded.Kwh(use) / total) * loss * Price(blocks[index], period);
            }
        }
    }

    /// <summary>"the charge's energy, in order of time, fills block after block; each bit is priced by its period and the block it falls into. A line for each
    /// block and period with use."</summary>
    private static IEnumerable<decimal> InTimeOrder(JsonObject charge, List<JsonObject> blocks, List<decimal> limits, List<Piece> covered, decimal loss)
    {
        var filled = new Dictionary<(int Block, string Period), decimal>();
        decimal before = 0;
        var calendar = charge.Text("calendar") ?? "";
        var isSplit = blocks.Any(block => block["pricePerKwh"] is JsonObject);
        foreach (var piece in covered)
        {
            var left = Rounded.Kwh(piece.Import);
            for (var block = 0; left > 0; block++)
            {
                var bit = Math.Min(left, limits[block] - before);
                if (bit > 0)
                {
                    var key = (block, isSplit ? piece.Moments[calendar].Period : "");
                    filled[key] = filled.GetValueOrDefault(key) + bit;
                    before += bit;
                    left -= bit;
                }
            }
        }

        return filled.OrderBy(item => item.Key.Block).Select(item => item.Value * loss * Price(blocks[item.Key.Block], item.Key.Period));
    }

    private static IEnumerable<(string Name, long Use)> ByPeriod(JsonObject charge, List<Piece> covered) => covered
        .GroupBy(piece => piece.Moments[charge.Text("calendar") ?? ""].Period)
        .Select(group => (group.Key, group.Sum(piece => piece.Import)));

    private static decimal Price(JsonObject block, string period) =>
        block["pricePerKwh"] is JsonObject prices ? prices.Number(period)!.Value : block.Number("pricePerKwh")!.Value;

    /// <summary>"limit of a block = the lowest of those it states: upToKwh or upToAllowance x amount, scaled, and upToKwhPerKw x billed kW of `limitDemand`."</summary>
    private static List<decimal> Limits(StatementSheet sheet, JsonObject charge, List<JsonObject> blocks)
    {
        var limits = new List<decimal>();
        foreach (var block in blocks)
        {
            var limit = decimal.MaxValue;
            if (block.Number("upToKwh") is { } kwh)
            {
                limit = Math.Min(limit, Scaled(sheet, charge, kwh));
            }

            if (block.Number("upToAllowance") is { } multiple)
            {
                limit = Math.Min(limit, Scaled(sheet, charge, multiple * Allowance(sheet, charge)));
            }

            if (block.Number("upToKwhPerKw") is { } perKw)
            {
                limit = Math.Min(limit, perKw * sheet.BilledKw.GetValueOrDefault(charge.Text("limitDemand")!));
            }

            if (limit < decimal.MaxValue)
            {
                // "Then rounded to 6 decimals, or to whole kWh with `limitInWholeKwh`, half away from zero; a limit is never below that of the block before."
                limit = charge.Flag("limitInWholeKwh") ? Math.Round(limit, 0, MidpointRounding.AwayFromZero) : Rounded.To6(limit);
                limit = Math.Max(limit, limits.LastOrDefault());
            }

            limits.Add(limit);
        }

        return limits;
    }

    /// <summary>"Scaled: `month` x months (x covered days / days unless all are covered), `day` x covered days, `thirtyDays` x covered days / 30, `billingPeriod` as it is."</summary>
    private static decimal Scaled(StatementSheet sheet, JsonObject charge, decimal limit)
    {
        var covered = sheet.Period.CoveredDays(sheet.Context, charge);
        return charge.Text("limitPer") switch
        {
            "month" => limit * sheet.MonthsOn(covered),
            "day" => limit * covered,
            "thirtyDays" => limit * covered / 30,
            _ => limit,
        };
    }

    /// <summary>"taken from the amount that matches the choices and the charge's seasons"</summary>
    private static decimal Allowance(StatementSheet sheet, JsonObject charge)
    {
        var allowance = sheet.Context.Plan.List("allowances").First(item => item.Text("name") == charge.Text("allowance"));
        return sheet.Context.There(allowance, "amounts")
            .First(amount => amount.Names("seasons") is not { } seasons || (charge.Names("seasons") ?? []).All(seasons.Contains))
            .Number("kwh")!.Value;
    }
}
