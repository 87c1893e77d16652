using NodaTime;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Says what to do about a fault.</summary>
internal static class Suggestions
{
    private const int Near = 3;

    public static string For(Fault fault)
    {
        var name = fault.Pointer.Split('/')[^1];
        if (fault.Rule.StartsWith("This field is not known here.", StringComparison.Ordinal))
        {
            return Nearest(name, Listed(fault.Rule, "Known: ")) is { } field
                ? $"Did you mean {field}?"
                : "Look it up in tariffs/rate-plan.schema.json; what can't be said yet stands at the end of tariffs/README.md.";
        }

        if (fault.Rule.StartsWith("It must name one of the ", StringComparison.Ordinal) || fault.Rule.StartsWith("It must be one of ", StringComparison.Ordinal))
        {
            return Nearest(fault.Value, Listed(fault.Rule, fault.Rule.Contains(": ", StringComparison.Ordinal) ? ": " : "one of ")) is { } near ? $"Did you mean {near}?" : "";
        }

        return name switch
        {
            "timeZone" => Nearest(fault.Value, DateTimeZoneProviders.Tzdb.Ids, 4) is { } zone ? $"Did you mean {zone}?" : "Find it in the tz database: region/city.",
            "windows" => fault.Value.Contains("in no window", StringComparison.Ordinal)
                ? "Give the missing hours a window, or name a defaultPeriod."
                : "Shorten one of the windows, or name a defaultPeriod: then the first window that holds wins.",
            "energyCharges" when fault.Rule.StartsWith("Each season and period", StringComparison.Ordinal) => fault.Value.EndsWith(": 0", StringComparison.Ordinal)
                ? "Write a charge for it, or let one of the charges cover it."
                : "Keep one of them; make the other an adjustment, or give it a layer of its own.",
            "seasons" => "A range that ends with February ends on 02-29.",
            "holidays" when fault.Rule.StartsWith("This field is required", StringComparison.Ordinal) => "Write holidays: [] if there are none.",
            "date" or "from" or "to" or "until" => fault.Value switch
            {
                "02-29" or "02-30" or "02-31" => "February ends on 02-28, in leap years on 02-29.",
                { Length: > 0 } when fault.Rule.Contains("time of day", StringComparison.Ordinal) => "Two digits each: 07:30.",
                { Length: > 0 } => "Is there such a day?",
                _ => "",
            },
            _ when fault.Rule.StartsWith("Limits of blocks must rise", StringComparison.Ordinal) => "Limits count from the first kWh: 500, 1000, not 500, 500. Sort the blocks.",
            _ when fault.Rule.Contains("decimal point", StringComparison.Ordinal) => "Prices are in the currency's main unit for each kWh: 12.5 cents are 0.125.",
            _ => "",
        };
    }

    private static string[] Listed(string rule, string after)
    {
        var at = rule.IndexOf(after, StringComparison.Ordinal);
        return at < 0 ? [] : rule[(at + after.Length)..].TrimEnd('.').Split(", ");
    }

    private static string? Nearest(string written, IEnumerable<string> known, int furthest = Near) =>
        written.Length is 0 or > 60
            ? null
            : known.Select(k => (Name: k, Distance: Distance(written.ToUpperInvariant(), k.ToUpperInvariant())))
                .Where(k => k.Distance <= furthest && k.Distance < k.Name.Length).OrderBy(k => k.Distance).Select(k => k.Name).FirstOrDefault();

    // Levenshtein, 1965: insertions, deletions and replacements of single letters.
    private static int Distance(string a, string b)
    {
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var (corner, _) = (row[0], row[0] = i);
            for (var j = 1; j <= b.Length; j++)
            {
                var above = row[j];
                row[j] = Math.Min(Math.Min(above, row[j - 1]) + 1, corner + (a[i - 1] == b[j - 1] ? 0 : 1));
                corner = above;
            }
        }

        return row[b.Length];
    }
}
