using System.Text.Json;
using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Makes rate-plan documents of records of the open US utility rate database (OpenEI, JSON of version 3 to 8).</summary>
/// <remarks>The database knows calendar months, whole hours, weekdays and weekends; it knows no holidays, no taxes, no events, no rules of proration and
/// rounding. What a record says is carried or named as not carried; what it can't say is assumed and named.</remarks>
public static class RateDatabaseImport
{
    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = ImportLimits.Depth, AllowDuplicateProperties = false };

    /// <summary>Reads a record, or an answer of the form <c>{"items": [record, ...]}</c>.</summary>
    /// <param name="json">The text, at most 8 MiB.</param>
    /// <param name="options">What the database does not say.</param>
    /// <returns>A rate plan with a report on every field, or every fault.</returns>
    public static Reading<ImportedRatePlan> Read(string json, RateImportOptions options)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(options);
        if (json.Length > ImportLimits.Characters)
        {
            return Refused("#", $"An answer of the rate database must not be longer than {ImportLimits.Characters} characters.");
        }

        try
        {
            using var text = JsonDocument.Parse(json.StartsWith('\uFEFF') ? json[1..] : json, Strict);
            return Choose(text.RootElement, options);
        }
        catch (JsonException e)
        {
            return Refused("#", "The text must be valid JSON, no deeper than 16 levels and with each field once.", "", (int)(e.LineNumber ?? 0) + 1);
        }
        catch (ArgumentException)
        {
            // Half of a surrogate pair in the text itself.
            return Refused("#", "The text must be valid Unicode.");
        }
    }

    private static Reading<ImportedRatePlan> Choose(JsonElement root, RateImportOptions options)
    {
        if (root.ValueKind != JsonValueKind.Object)
        {
            return Refused("#", "It must be a record, or an object with a list of records named items.");
        }

        if (!root.TryGetProperty("items", out var items))
        {
            return Import(new(root, "#"), options);
        }

        if (items.ValueKind != JsonValueKind.Array)
        {
            return Refused("#/items", "It must be a list of records.");
        }

        var chosen = items.EnumerateArray().Select((Record, Index) => (Record, Index))
            .Where(i => i.Record.ValueKind == JsonValueKind.Object && (options.Label is null || LabelOf(i.Record) == options.Label)).ToArray();
        return chosen.Length == 1
            ? Import(new(chosen[0].Record, $"#/items/{chosen[0].Index}"), options)
            : Refused("#/items", options.Label is null ? "Of several records one must be chosen by its label." : "There must be one record with this label.",
                options.Label is null
                    ? $"{chosen.Length} records: {string.Join(", ", chosen.Take(5).Select(i => DatabaseRecord.Clean(LabelOf(i.Record), 30)))}"
                    : DatabaseRecord.Clean(options.Label, 40));
    }

    private static string LabelOf(JsonElement record)
    {
        try
        {
            return record.TryGetProperty("label", out var label) && label.ValueKind == JsonValueKind.String ? label.GetString()! : "";
        }
        catch (InvalidOperationException)
        {
            return "";
        }
    }

    private static Reading<ImportedRatePlan> Import(DatabaseRecord record, RateImportOptions options)
    {
        var document = new JsonObject();
        HeadPart.Write(record, options, document);
        FixedPart.Write(record, document);
        WriteCharges(record, options, document);
        FixedPart.WriteMinimum(record, document);
        document["rounding"] = new JsonObject { ["each"] = "bill", ["mode"] = "halfUp" };
        document["proration"] = new JsonObject { ["month"] = "daysInMonth" };
        record.Report("<rounding>", Carried.WithAssumption, "The database has no rule; the bill is rounded to the cent.");
        record.Report("<proration>", Carried.WithAssumption, "The database has no rule; a day is one share of its month.");
        record.Report("<taxes>", Carried.No, "The database has no field for taxes and fees in per cent.");
        record.ReportIfThere(Carried.No, "Attributes without a meaning that could be read: riders, taxes, fees.", "fixedattrs", "energyattrs", "demandattrs");
        if (record.Faults.Count > 0)
        {
            return Reading<ImportedRatePlan>.Refused(record.Faults);
        }

        var id = HeadPart.Id(record);
        var check = RatePlanDocument.Read(document.ToJsonString(), id);
        return check.IsRead
            ? new ImportedRatePlan(id, document, record.Fields)
            : Reading<ImportedRatePlan>.Refused([.. check.Faults.Select(f =>
                new Fault(record.Pointer, $"The record makes a rate plan that is not valid: {f.Pointer}: {f.Rule}", f.Value))]);
    }

    private static void WriteCharges(DatabaseRecord record, RateImportOptions options, JsonObject document)
    {
        var structure = PriceStructure.Read(record, "energyratestructure", -5, 100);
        if (structure.Count == 0)
        {
            record.Fault("energyratestructure", "A record must have prices of energy.");
        }

        var units = EnergyPart.Units(structure);
        if (units.Length > 1 || units.Any(u => u is not ("" or "kwh" or "kwh daily" or "kwh/kw")))
        {
            record.Fault("energyratestructure", "Limits of tiers must all be in kWh, kWh daily or kWh/kW.", null);
        }

        var fuel = Fuel(record);
        var demand = new DemandPart(record);
        if (record.Faults.Count > 0 || MonthMatrix.Read(record, "energyweekdayschedule", "energyweekendschedule", structure.Count) is not { } matrix)
        {
            return;
        }

        var seasons = new SeasonMonths(m => $"{matrix.Pattern(m)}|{fuel[m]}|{demand.Pattern(m)}");
        var calendar = new CalendarPart(matrix, seasons);
        if (!calendar.IsExpressible)
        {
            record.Fault("energyweekdayschedule", "A rate plan has at most 12 periods in a season and 200 windows.");
            return;
        }

        WriteCalendar(record, document, seasons, calendar, matrix.TellsDaysApart || demand.Matrix is { TellsDaysApart: true });
        new EnergyPart(record, structure, matrix, calendar, seasons, DemandPart.Highest).Write(document, options.Tiers);
        WriteFuel(record, document, seasons, fuel);
        demand.Write(document, seasons, units is ["kwh/kw"]);
        ExportPart.Write(record, structure, matrix, calendar, seasons, document);
    }

    private static void WriteCalendar(DatabaseRecord record, JsonObject document, SeasonMonths seasons, CalendarPart calendar, bool tellsDaysApart)
    {
        if (!seasons.IsOne)
        {
            document["seasons"] = seasons.ToJson();
            record.Report("<seasons>", Carried.WithAssumption,
                "Months that look the same are a season; one that begins inside a month can't be told from the record.");
        }

        if (tellsDaysApart)
        {
            document["dayTypes"] = new JsonArray(
                new JsonObject { ["name"] = "weekday", ["days"] = new JsonArray("monday", "tuesday", "wednesday", "thursday", "friday") },
                new JsonObject { ["name"] = "weekend", ["days"] = new JsonArray("saturday", "sunday") });
            document["holidays"] = new JsonArray();
            record.Report("<holidays>", Carried.No, "The database has no holidays; none is like a weekend.");
        }

        calendar.Write(document, always: false);
    }

    private static decimal[] Fuel(DatabaseRecord record)
    {
        var values = record.List("fueladjustmentsmonthly", 12);
        if (values.Length is not (0 or 12))
        {
            record.Fault("fueladjustmentsmonthly", "It must be 12 amounts per kWh, January first.", record.Find("fueladjustmentsmonthly"));
            return new decimal[12];
        }

        return values.Length == 0 ? new decimal[12] : [.. values.Select((v, m) => record.Number(v, $"fueladjustmentsmonthly/{m}", -5, 100) ?? 0)];
    }

    private static void WriteFuel(DatabaseRecord record, JsonObject document, SeasonMonths seasons, decimal[] fuel)
    {
        record.ReportIfThere(Carried.Yes, "", "fueladjustmentsmonthly");
        var adjustments = new JsonArray();
        foreach (var amount in fuel.Where(f => f != 0).Distinct())
        {
            var adjustment = new JsonObject { ["name"] = "Fuel adjustment" };
            if (seasons.Where(m => fuel[m] == amount) is { } names)
            {
                adjustment["seasons"] = names;
            }

            adjustment["pricePerKwh"] = amount;
            adjustments.Add(adjustment);
        }

        if (adjustments.Count > 0)
        {
            document["adjustments"] = adjustments;
        }
    }

    private static Reading<ImportedRatePlan> Refused(string pointer, string rule, string value = "", int? line = null) =>
        Reading<ImportedRatePlan>.Refused(new Fault(pointer, rule, value, line));
}
