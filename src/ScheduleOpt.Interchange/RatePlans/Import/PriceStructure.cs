using System.Text.Json;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Periods of tiers, as the database writes them for energy and for demand.</summary>
internal static class PriceStructure
{
    /// <summary>Reads a structure; empty where it is not there, or with faults where it is wrong.</summary>
    public static IReadOnlyList<IReadOnlyList<PriceTier>> Read(DatabaseRecord record, string field, decimal least, decimal most)
    {
        var periods = record.List(field, ImportLimits.Periods);
        var read = new List<IReadOnlyList<PriceTier>>();
        for (var p = 0; p < periods.Length; p++)
        {
            if (periods[p].ValueKind != JsonValueKind.Array || periods[p].GetArrayLength() is 0 or > ImportLimits.Tiers)
            {
                record.Fault($"{field}/{p}", $"A period must be a list of 1 to {ImportLimits.Tiers} tiers.", periods[p]);
                continue;
            }

            read.Add(Tiers(record, $"{field}/{p}", [.. periods[p].EnumerateArray()], least, most));
        }

        return read;
    }

    private static List<PriceTier> Tiers(DatabaseRecord record, string path, JsonElement[] tiers, decimal least, decimal most)
    {
        var read = new List<PriceTier>();
        for (var t = 0; t < tiers.Length; t++)
        {
            var at = $"{path}/{t}";
            if (tiers[t].ValueKind != JsonValueKind.Object)
            {
                record.Fault(at, "A tier must be an object.", tiers[t]);
                continue;
            }

            if (!tiers[t].TryGetProperty("rate", out _) && !tiers[t].TryGetProperty("adj", out _))
            {
                record.Report("<tier without rate>", Carried.WithAssumption, $"A tier without a rate costs nothing; the first is {path}.");
            }

            var price = (Member(record, tiers[t], at, "rate", least, most) ?? 0) + (Member(record, tiers[t], at, "adj", least, most) ?? 0);
            if (price < least || price > most)
            {
                record.Fault(at, $"rate + adj must be from {least} to {most}.", tiers[t]);
            }

            var max = Member(record, tiers[t], at, "max", 0, 1e9m);
            // A limit that no one reaches is how some records write that there is none.
            max = max >= 1_000_000 ? null : max;
            if (max is null && t < tiers.Length - 1)
            {
                record.Fault(at + "/max", "Every tier but the last must have a limit below 1000000.", tiers[t]);
            }
            else if (t > 0 && max <= read.LastOrDefault()?.Max)
            {
                record.Fault(at + "/max", "Limits of tiers must rise.", tiers[t]);
            }

            if (max is not null && t == tiers.Length - 1)
            {
                record.Report("<limit of the last tier>", Carried.WithAssumption, "A last tier has a limit; its price is taken to hold beyond it.");
                max = null;
            }

            var unit = tiers[t].TryGetProperty("unit", out var u) && u.ValueKind == JsonValueKind.String
                ? DatabaseRecord.Clean(u.GetRawText().Trim('"'), 20).ToLowerInvariant() : "";
            foreach (var other in tiers[t].EnumerateObject().Where(m => m.Name is not ("rate" or "adj" or "sell" or "max" or "unit")).Take(5))
            {
                record.Report($"<tier: {DatabaseRecord.Clean(other.Name, 40)}>", Carried.No, "This member of a tier is not known.");
            }

            read.Add(new(max, price, Member(record, tiers[t], at, "sell", least, most), unit));
        }

        return read;
    }

    private static decimal? Member(DatabaseRecord record, JsonElement tier, string at, string name, decimal least, decimal most) =>
        tier.TryGetProperty(name, out var value) && value.ValueKind != JsonValueKind.Null ? record.Number(value, $"{at}/{name}", least, most) : null;
}
