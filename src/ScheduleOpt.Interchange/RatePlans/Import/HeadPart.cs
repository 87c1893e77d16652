using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using NodaTime;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Name, utility, source, dates and what a household should know.</summary>
internal static partial class HeadPart
{
    private static readonly string[] Sheets = ["source", "sourceparent", "uri"];

    private static readonly string[] Comments = ["basicinformationcomments", "energycomments", "demandcomments"];

    private static readonly (string Field, string Words)[] Conditions =
    [
        ("sector", "sector"), ("servicetype", "service"), ("peakkwcapacitymin", "demand at least (kW)"), ("peakkwcapacitymax", "demand at most (kW)"),
        ("peakkwcapacityhistory", "over months"), ("peakkwhusagemin", "use at least (kWh)"), ("peakkwhusagemax", "use at most (kWh)"),
        ("peakkwhusagehistory", "over months"), ("voltageminimum", "voltage at least (V)"), ("voltagemaximum", "voltage at most (V)"),
        ("voltagecategory", "voltage"), ("phasewiring", "wiring"),
    ];

    public static void Write(DatabaseRecord record, RateImportOptions options, JsonObject document)
    {
        document["name"] = Required(record, "name", 100, "Rate plan");
        document["utility"] = Required(record, "utility", 100, "Unknown utility");
        if (Description(record) is { Length: > 0 } description)
        {
            document["description"] = description;
        }

        document["source"] = Source(record);
        document["currency"] = Currency(record);
        document["timeZone"] = options.Zone.Id;
        record.Report("<time zone>", Carried.WithAssumption, $"The database has no time zone; {options.Zone.Id} was given.");
        document["effective"] = Effective(record, options.Zone);
        document["metering"] = "wholeHouse";
        record.Report("<metering>", Carried.WithAssumption, "Taken as a plan for the whole house.");
        if (Eligibility(record) is { Length: > 0 } eligibility)
        {
            document["eligibility"] = eligibility;
        }
    }

    /// <summary>An identifier made of what names the record.</summary>
    public static string Id(DatabaseRecord record)
    {
        var words = string.Join('-', new[] { record.Text("utility", 60), record.Text("name", 60), record.Text("label", 24) }.Where(t => t.Length > 0));
        var id = NotInIdentifiers().Replace(words.ToLowerInvariant(), "-").Trim('-');
        id = id.Length <= 100 ? id : id[..100].Trim('-');
        return id.Length > 0 ? id : "rate-plan";
    }

    private static string Required(DatabaseRecord record, string field, int longest, string otherwise)
    {
        var text = record.Text(field, longest);
        record.Report(field, text.Length > 0 ? Carried.Yes : Carried.WithAssumption, text.Length > 0 ? "" : "It is missing.");
        return text.Length > 0 ? text : otherwise;
    }

    private static string Description(DatabaseRecord record)
    {
        record.ReportIfThere(Carried.Yes, "", "description");
        record.ReportIfThere(Carried.WithAssumption, "Kept as text: holidays, events, riders and taxes that it tells of are not in the bill.", Comments);
        return DatabaseRecord.Clean(string.Join(" ", Comments.Prepend("description").Select(f => record.Text(f, 1900)).Where(t => t.Length > 0)), 2000);
    }

    private static string Source(DatabaseRecord record)
    {
        record.ReportIfThere(Carried.Yes, "", "label", "uri", "source", "sourceparent");
        record.ReportIfThere(Carried.No, "Not needed for bills.", "eia", "eiaid", "approved", "is_default", "supercedes", "revisions");
        var label = record.Text("label", 40);
        var sheet = Sheets.Select(f => record.Text(f, 350)).FirstOrDefault(t => t.Length > 0) ?? "";
        return DatabaseRecord.Clean($"Open US utility rate database (openei.org){(label.Length > 0 ? ", record " + label : "")}{(sheet.Length > 0 ? "; " + sheet : "")}", 500);
    }

    private static string Currency(DatabaseRecord record)
    {
        var country = record.Text("country", 10).ToUpperInvariant();
        var currency = country switch { "" or "USA" or "US" => "USD", "CAN" => "CAD", "GBR" => "GBP", "AUS" => "AUD", "NZL" => "NZD", _ => null };
        record.Report(record.Has("country") ? "country" : "<currency>", Carried.WithAssumption, currency is null
            ? "Prices are taken as USD, which may be wrong for this country." : $"Prices are taken as {currency}.");
        return currency ?? "USD";
    }

    private static JsonObject Effective(DatabaseRecord record, DateTimeZone zone)
    {
        var from = Date(record, "startdate", zone);
        if (from is null)
        {
            record.Report("<startdate>", Carried.WithAssumption, "No start date is given; taken as 1 January 2000.");
        }

        var effective = new JsonObject { ["from"] = Iso(from ?? new LocalDate(2000, 1, 1)) };
        if (Date(record, "enddate", zone) is { } until)
        {
            if (until < (from ?? until))
            {
                record.Fault("enddate", "A rate must not end before it begins.", record.Find("enddate"));
            }

            effective["until"] = Iso(until);
        }

        return effective;
    }

    private static LocalDate? Date(DatabaseRecord record, string field, DateTimeZone zone)
    {
        if (record.Number(field, -2_208_988_800, 7_258_032_000) is not { } number)
        {
            return null;
        }

        // Midnight UTC is a date; other seconds are midnight of the utility.
        var instant = Instant.FromUnixTimeSeconds((long)number);
        record.Report(field, Carried.WithAssumption, field == "enddate" ? "Seconds taken as a date; the last day on which the prices hold."
            : "Seconds taken as a date.");
        return (long)number % 86_400 == 0 ? instant.InUtc().Date : instant.InZone(zone).Date;
    }

    private static string Iso(LocalDate date) => date.ToString("uuuu-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private static string Eligibility(DatabaseRecord record)
    {
        var texts = new List<string>();
        foreach (var (field, words) in Conditions.Where(c => record.Has(c.Field)))
        {
            var value = record.Find(field)!.Value;
            var text = value.ValueKind == JsonValueKind.String ? record.Text(field, 60) : DatabaseRecord.Clean(value.GetRawText(), 30);
            texts.Add($"{words} {text}");
            record.Report(field, field == "servicetype" && text is "Energy" or "Delivery" ? Carried.WithAssumption : Carried.Yes,
                text is "Energy" or "Delivery" ? "The record is one part of a bill; the other part is another record." : "Kept as text.");
        }

        return DatabaseRecord.Clean(string.Join("; ", texts), 2000);
    }

    [GeneratedRegex("[^a-z0-9]+", RegexOptions.CultureInvariant)]
    private static partial Regex NotInIdentifiers();
}
