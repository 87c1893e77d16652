using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>Energy charges, adjustments and their prices.</summary>
internal sealed partial class PlanDraft
{
    private decimal Price() => draw.Chance(0.06) ? draw.Number(-0.2m, 0, 4) : draw.Number(0, 0.6m, draw.Between(2, 5));

    private void AddEnergyCharges()
    {
        var charges = new JsonArray();
        var layers = With("layers", 0.25) ? new string?[] { "supply", "delivery" } : new string?[] { null };
        foreach (var layer in layers)
        {
            foreach (var charge in Layer(layer))
            {
                charges.Add(charge);
            }
        }

        plan["energyCharges"] = charges;
    }

    /// <summary>Charges that together price each season and period once.</summary>
    private IEnumerable<JsonObject> Layer(string? layer)
    {
        var name = calendars.Count > 1 && With("layer by another calendar", 0.4) ? "second" : "";
        var calendar = calendars[name];
        var seasons = calendar.Seasons.Count > 0 && draw.Chance(0.7) ? draw.Partition(calendar.Seasons) : [[]];
        foreach (var group in seasons)
        {
            var periods = calendar.Periods.Count > 0 && draw.Chance(0.7) ? draw.Partition(calendar.Periods) : [[]];
            foreach (var some in periods)
            {
                var charge = Object(("layer", layer), ("calendar", name.Length > 0 ? name : null));
                if (group.Length > 0)
                {
                    charge["seasons"] = Draw.Array(group);
                }

                if (some.Length > 0)
                {
                    charge["periods"] = Draw.Array(some);
                }

                foreach (var part in Parted(charge))
                {
                    part["name"] = Named("Energy");
                    AddPrice(part, calendar, adjustment: false);
                    yield return part;
                }
            }
        }
    }

    /// <summary>The same scope in two: before and after a date, by billing season or by choice.</summary>
    private IEnumerable<JsonObject> Parted(JsonObject charge)
    {
        if (With("price change on a date", 0.2))
        {
            var change = series.SomeDate(draw);
            var before = charge.DeepClone().AsObject();
            before["until"] = Text(change.PlusDays(-1));
            charge["from"] = Text(change);
            return [before, charge];
        }

        if (billingSeasons.Count > 0 && With("prices by billing season", 0.4))
        {
            return [.. draw.Partition(billingSeasons).Select(group =>
            {
                var part = charge.DeepClone().AsObject();
                part["billingSeasons"] = Draw.Array(group);
                return part;
            })];
        }

        if (options.Count > 0 && With("prices by choice", 0.4))
        {
            var (option, values) = draw.Of(options);
            return [.. draw.Partition(values).Select(group =>
            {
                var part = charge.DeepClone().AsObject();
                part["when"] = Object((option, Draw.Array(group)));
                return part;
            })];
        }

        return [charge];
    }

    private void AddAdjustments()
    {
        var list = new JsonArray();
        for (var index = draw.Chance(0.5) ? 0 : draw.Between(1, 3); index > 0; index--)
        {
            features.Add("adjustments");
            var charge = Object(("name", Named("Adjustment")));
            AddPrice(charge, AddScope(charge, periods: true), adjustment: true);
            list.Add(charge);
        }

        if (list.Count > 0 || draw.Chance(0.5))
        {
            plan["adjustments"] = list;
        }
    }

    private void AddPrice(JsonObject charge, CalendarDraft calendar, bool adjustment)
    {
        if (With("lossFactor", 0.15))
        {
            charge["lossFactor"] = draw.Number(0.95m, 1.1m, 4);
        }

        if (With("hourlyPrice", 0.12))
        {
            charge["hourlyPrice"] = Hourly();
        }
        else if (With("blocks", 0.4))
        {
            AddBlocks(charge, calendar);
        }
        else
        {
            charge["pricePerKwh"] = adjustment ? draw.Number(-0.05m, 0.05m, 4) : Price();
        }
    }

    private JsonObject Hourly()
    {
        var name = draw.Of("day ahead", "real time");
        var missing = draw.Of("refuse", "previous", "dayBefore", "price");
        var hourly = Object(("series", name), ("missing", missing));
        if (missing == "price")
        {
            hourly["missingPrice"] = Price();
        }

        if (draw.Chance(0.5))
        {
            hourly["multiplier"] = draw.Number(-1, 2, 3);
        }

        if (draw.Chance(0.5))
        {
            hourly["adder"] = draw.Number(0, 0.1m, 4);
        }

        if (draw.Chance(0.3))
        {
            hourly["atLeast"] = draw.Number(0, 0.05m, 3);
        }

        if (draw.Chance(0.3))
        {
            hourly["atMost"] = draw.Number(0.1m, 0.5m, 3);
        }

        if (!prices.ContainsKey(name))
        {
            var step = Duration.FromMinutes(draw.Of(15, 30, 60, 60, 60));
            var start = Instant.FromUnixTimeTicks(series.Question.Start.ToUnixTimeTicks() / NodaConstants.TicksPerHour * NodaConstants.TicksPerHour);
            // Now and then it begins early (for dayBefore) or ends early.
            start -= Duration.FromHours(draw.Of(0, 0, 24, 50));
            var count = (int)((series.Question.End - start) / step) + 1;
            count = Math.Max(1, draw.Chance(0.08) ? count - draw.Between(1, count) : count);
            var holes = draw.Chance(0.15) ? 0.1 : 0;
            prices[name] = new(start, step, [.. Enumerable.Range(0, count).Select(_ => draw.Chance(holes) ? (decimal?)null : draw.Number(-0.05m, 0.4m, 4))]);
        }

        features.Add($"missing {missing}");
        return hourly;
    }

    private void AddBlocks(JsonObject charge, CalendarDraft calendar)
    {
        var count = draw.Between(1, 4);
        var covered = charge["periods"] is JsonArray named ? [.. named.Select(item => item!.GetValue<string>())] : calendar.Periods;
        var byPeriod = covered.Count > 1 && With("blocks by period", 0.5);
        // The reader lets limits by allowance go with the plan's own calendar alone.
        var byAllowance = count > 1 && calendar == calendars[""] && With("upToAllowance", 0.25);
        var byKw = count > 1 && demandNames.Count > 0 && With("upToKwhPerKw", 0.3);
        var byKwh = count > 1 && (!(byAllowance || byKw) || draw.Chance(0.3));
        var blocks = new JsonArray();
        decimal kwh = 0, multiple = 0, hours = 0;
        for (var index = 0; index < count; index++)
        {
            var block = new JsonObject();
            if (index < count - 1)
            {
                if (byKwh)
                {
                    kwh += draw.Chance(0.6) ? draw.Between(1, 20) : draw.Number(0.5m, 60, 2);
                    block["upToKwh"] = kwh;
                }

                if (byAllowance)
                {
                    multiple += draw.Number(0.5m, 2, 1);
                    block["upToAllowance"] = multiple;
                }

                if (byKw)
                {
                    hours += draw.Number(1, 30, 1);
                    block["upToKwhPerKw"] = hours;
                }
            }

            block["pricePerKwh"] = byPeriod && draw.Chance(0.9)
                ? new JsonObject(covered.Select(period => KeyValuePair.Create(period, (JsonNode?)JsonValue.Create(Price()))))
                : Price();
            blocks.Add(block);
        }

        charge["blocks"] = blocks;
        if (byKwh || byAllowance)
        {
            charge["limitPer"] = draw.Of("month", "day", "thirtyDays", "billingPeriod", "billingPeriod");
            features.Add($"limitPer {charge["limitPer"]}");
        }

        if (byAllowance)
        {
            charge["allowance"] = Allowance(charge, calendar);
        }

        if (byKw)
        {
            charge["limitDemand"] = draw.Of(demandNames);
        }

        if (count > 1 && With("limitInWholeKwh", 0.15))
        {
            charge["limitInWholeKwh"] = true;
        }

        if (count > 1 && With("wholeUse", 0.12))
        {
            charge["wholeUse"] = true;
        }
        else if (byPeriod && With("fill", 0.6))
        {
            charge["fill"] = draw.Of("inProportion", "inTimeOrder");
            features.Add($"fill {charge["fill"]}");
        }
    }

    /// <summary>An allowance that has one amount for all that the charge covers.</summary>
    private string Allowance(JsonObject charge, CalendarDraft calendar)
    {
        var list = plan["allowances"]?.AsArray();
        if (list is null)
        {
            list = [];
            plan["allowances"] = list;
        }

        var name = $"allowance {list.Count}";
        var amounts = new JsonArray();
        // Seasons of allowances are the plan's own, and each charge must find one amount for all of its seasons.
        if (calendar == calendars[""] && charge["seasons"] is JsonArray { Count: 1 } && With("allowance by season", 0.6))
        {
            foreach (var season in calendar.Seasons)
            {
                amounts.Add(Object(("kwh", draw.Number(1, 20, 1)), ("seasons", Draw.Array([season]))));
            }
        }
        else if (options.Count > 0 && With("allowance by choice", 0.6))
        {
            var (option, values) = draw.Of(options);
            foreach (var group in draw.Partition(values))
            {
                amounts.Add(Object(("kwh", draw.Number(1, 20, 1)), ("when", Object((option, Draw.Array(group))))));
            }
        }
        else
        {
            amounts.Add(Object(("kwh", draw.Number(1, 20, 1))));
        }

        list.Add(Object(("name", name), ("amounts", amounts)));
        return name;
    }
}
