using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>Everything that isn't priced per kWh, and export.</summary>
internal sealed partial class PlanDraft
{
    private string Unit() => draw.Of("month", "day", "year", "billingPeriod");

    private JsonObject UseBand()
    {
        var over = draw.Number(0, 40, 0);
        return draw.Between(0, 2) switch
        {
            0 => Object(("overKwh", over)),
            1 => Object(("upToKwh", over)),
            _ => Object(("overKwh", over), ("upToKwh", over + draw.Between(1, 60))),
        };
    }

    private void AddCustomerCharges()
    {
        var list = new JsonArray();
        for (var index = draw.Between(0, 3); index > 0; index--)
        {
            var charge = Object(("name", Named("Customer")), ("amount", draw.Number(-5, 40, draw.Between(0, 4))), ("per", Unit()));
            features.Add($"customer charge per {charge["per"]}");
            AddScope(charge, periods: false);
            if (With("perServiceKw", 0.12))
            {
                charge["perServiceKw"] = true;
            }

            if (With("useBand", 0.2))
            {
                charge["useBand"] = UseBand();
            }

            list.Add(charge);
        }

        plan["customerCharges"] = list;
    }

    private void AddDemandCharges()
    {
        if (!With("demandCharges", 0.4))
        {
            return;
        }

        var list = new JsonArray();
        for (var index = draw.Between(1, 3); index > 0; index--)
        {
            demandNames.Add(Named("Demand"));
        }

        foreach (var name in demandNames)
        {
            list.Add(DemandCharge(name));
        }

        plan["demandCharges"] = list;
    }

    private JsonObject DemandCharge(string name)
    {
        var charge = Object(("name", name), ("averagingMinutes", draw.Of(15, 30, 60)));
        AddScope(charge, periods: true);
        if (With("demand blocks", 0.3))
        {
            decimal kw = draw.Between(1, 3);
            charge["blocks"] = new JsonArray(
                Object(("upToKw", kw), ("pricePerKw", draw.Of(0m, draw.Number(0, 10, 2)))),
                Object(("upToKw", kw + draw.Number(0.5m, 5, 1)), ("pricePerKw", draw.Number(0, 20, 2))),
                Object(("pricePerKw", draw.Number(0, 20, 3))));
        }
        else
        {
            charge["pricePerKw"] = draw.Number(0, 25, draw.Between(0, 3));
        }

        if (With("demand per", 0.5))
        {
            charge["per"] = draw.Of("billingPeriod", "month", "day");
        }

        if (With("sliding", 0.25))
        {
            charge["sliding"] = true;
        }

        if (With("meanOfDailyHighest", 0.25))
        {
            charge["measure"] = "meanOfDailyHighest";
            if (draw.Chance(0.5))
            {
                charge["days"] = draw.Between(1, 5);
            }
        }

        if (With("kwDecimals", 0.35))
        {
            charge["kwDecimals"] = draw.Between(0, 3);
        }

        if (With("kwRounding", 0.25))
        {
            charge["kwRounding"] = draw.Of("halfUp", "up", "down");
        }

        if (With("minimumKw", 0.2))
        {
            charge["minimumKw"] = draw.Number(0, 8, 1);
        }

        if (With("ratchet", 0.4))
        {
            var ratchet = Object(("percent", draw.Number(20, 100, draw.Between(0, 1))));
            if (draw.Chance(0.6))
            {
                ratchet["months"] = draw.Of(1, 3, 11, 24);
            }
            else
            {
                features.Add("ratchet inMonths");
                ratchet["inMonths"] = new JsonArray([.. Enumerable.Range(1, 12).Where(_ => draw.Chance(0.6)).DefaultIfEmpty(series.First.Month).Select(month => (JsonNode)JsonValue.Create(month))]);
            }

            if (demandNames.Count > 1 && With("ratchet of another charge", 0.4))
            {
                ratchet["of"] = draw.Of(demandNames);
            }

            charge["ratchet"] = ratchet;
        }

        return charge;
    }

    private void AddCredits()
    {
        if (!With("credits", 0.3))
        {
            return;
        }

        var list = new JsonArray();
        for (var index = draw.Between(1, 3); index > 0; index--)
        {
            var per = draw.Of("kwh", "month", "day", "year", "billingPeriod");
            features.Add($"credit per {per}");
            var credit = Object(("name", Named("Credit")), ("amount", per == "kwh" ? draw.Number(0, 0.05m, 4) : draw.Number(0, 10, 2)), ("per", per));
            AddScope(credit, periods: per == "kwh");
            if (With("useBand", 0.35))
            {
                credit["useBand"] = UseBand();
            }

            list.Add(credit);
        }

        plan["credits"] = list;
    }

    private void AddRebates()
    {
        if (plan["events"] is not JsonArray events || !With("rebates", 0.6))
        {
            return;
        }

        var baseline = Object(("days", draw.Between(1, 6)));
        if (draw.Chance(0.5))
        {
            baseline["highest"] = draw.Between(1, baseline["days"]!.GetValue<int>());
        }

        var rebate = Object(("name", Named("Rebate")), ("event", events[draw.Between(0, events.Count - 1)]!["name"]!.GetValue<string>()), ("pricePerKwh", draw.Number(0, 2, 2)), ("baseline", baseline));
        Condition(rebate);
        plan["rebates"] = new JsonArray(rebate);
    }

    private void AddExport()
    {
        if (series.Question.Export is null ? !draw.Chance(0.1) : !draw.Chance(0.85))
        {
            return;
        }

        var kind = draw.Of("netMetering", "netBilling");
        features.Add(kind);
        var export = Object(("kind", kind));
        if (With("nettingMinutes", 0.5))
        {
            export["nettingMinutes"] = draw.Of(0, 5, 10, 15, 30, 60);
        }

        if (With("settlementMonth", 0.5))
        {
            var month = draw.Chance(0.7) ? series.First.PlusDays(draw.Between(0, series.Days)).Month : draw.Between(1, 12);
            export["settlementMonth"] = month;
        }

        if (kind == "netMetering")
        {
            if (With("bankBy period", 0.5))
            {
                export["bankBy"] = "period";
            }

            if (draw.Chance(0.6))
            {
                export["payOutPerKwh"] = draw.Number(0, 0.1m, 3);
            }
        }
        else
        {
            var list = new JsonArray();
            for (var index = draw.Between(0, 3); index > 0; index--)
            {
                var price = Object(("name", Named("Export")));
                AddScope(price, periods: true);
                if (With("export hourlyPrice", 0.2))
                {
                    price["hourlyPrice"] = Hourly();
                }
                else if (With("export blocks", 0.25))
                {
                    AddExportBlocks(price);
                }
                else
                {
                    price["pricePerKwh"] = draw.Number(-0.02m, 0.2m, 4);
                }

                if (draw.Chance(0.2))
                {
                    price["lossFactor"] = draw.Number(0.9m, 1.1m, 3);
                }

                list.Add(price);
            }

            export["prices"] = list;
            if (With("creditUse", 0.7))
            {
                export["creditUse"] = draw.Of("thisBill", "bankThisBill", "bankNextBill");
                features.Add($"{export["creditUse"]}");
            }

            if (With("offsets", 0.3))
            {
                export["offsets"] = Draw.Array(draw.Some(["customerCharge", "energyCharge", "demandCharge", "adjustment", "credit", "minimumBill", "tax"]));
            }

            if (draw.Chance(0.5))
            {
                export["payOutPercent"] = draw.Number(0, 100, 0);
            }
        }

        plan["export"] = export;
    }

    private void AddExportBlocks(JsonObject price)
    {
        var blocks = new JsonArray();
        decimal limit = 0;
        for (var index = draw.Between(1, 3); index > 0; index--)
        {
            limit += draw.Number(0.5m, 12, 2);
            blocks.Add((JsonNode)Object(("upToKwh", limit), ("pricePerKwh", draw.Number(-0.02m, 0.2m, 4))));
        }

        blocks.Add((JsonNode)Object(("pricePerKwh", draw.Number(-0.02m, 0.2m, 4))));
        price["blocks"] = blocks;
        price["limitPer"] = draw.Of("month", "day", "thirtyDays", "billingPeriod");
        if (draw.Chance(0.2))
        {
            price["limitInWholeKwh"] = true;
        }
    }

    private void AddMinimumBill()
    {
        if (!With("minimumBill", 0.35))
        {
            return;
        }

        var stage = draw.Of("beforeTaxes", "afterTaxes");
        string[] parts = [.. PartNames[..6], .. stage == "afterTaxes" ? ["tax"] : Array.Empty<string>()];
        plan["minimumBill"] = Object(("amount", draw.Number(0, 80, 2)), ("per", Unit()), ("counts", Draw.Array(draw.Some(parts))), ("stage", stage));
        features.Add($"minimumBill {stage}");
        if (chargeNames.Count > 0 && With("minimum on charges", 0.3))
        {
            plan["minimumBill"]!["charges"] = Draw.Array(draw.Some(chargeNames));
        }
    }

    private void AddTaxes()
    {
        var list = new JsonArray();
        var names = new List<string>();
        var riders = new List<string>();
        for (var index = draw.Chance(0.4) ? 0 : draw.Between(1, 4); index > 0; index--)
        {
            var name = $"Tax {++counter}";
            var isRider = With("rider", 0.25);
            var on = new JsonObject();
            if (draw.Chance(0.75))
            {
                on["parts"] = Draw.Array(draw.Some(isRider ? PartNames[..4] : PartNames));
            }

            if (chargeNames.Count > 0 && (on.Count == 0 || With("tax on charges", 0.25)))
            {
                on["charges"] = Draw.Array(draw.Some(chargeNames));
            }

            if (plan["energyCharges"]!.AsArray().Any(charge => charge!["layer"] is not null) && With("tax on layers", 0.4))
            {
                on["layers"] = Draw.Array(draw.Some(["supply", "delivery"]));
            }

            var earlier = isRider ? riders : names;
            if (earlier.Count > 0 && With("tax on tax", 0.5))
            {
                on["taxes"] = Draw.Array(draw.Some(earlier));
            }

            var tax = Object(("name", name), ("percent", draw.Chance(0.1) ? draw.Number(-30, 0, 0) : draw.Number(0, 12, draw.Between(0, 2))), ("on", on));
            if (isRider)
            {
                tax["as"] = "adjustment";
                riders.Add(name);
            }

            names.Add(name);
            if (With("grossUp", 0.15))
            {
                tax["grossUp"] = true;
            }

            AddDates(tax);
            Condition(tax);
            if (With("orPerKwh", 0.15))
            {
                tax["orPerKwh"] = draw.Number(0, 0.02m, 4);
            }

            if (With("atMost", 0.15))
            {
                tax["atMost"] = Object(("amount", draw.Number(0, 4, 2)), ("per", Unit()));
            }

            list.Add(tax);
        }

        if (list.Count > 0)
        {
            plan["taxes"] = list;
        }
    }
}
