using System.Text.Json.Nodes;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Fixed charges and the minimum bill.</summary>
internal static class FixedPart
{
    private const decimal Most = 100_000;

    public static void Write(DatabaseRecord record, JsonObject document)
    {
        var charges = new JsonArray();
        if (Amount(record, "fixedchargefirstmeter", "fixedchargeunits", -Most, "fixedmonthlycharge", "month") is var (amount, per) && amount != 0)
        {
            charges.Add(new JsonObject { ["name"] = "Fixed charge", ["amount"] = amount, ["per"] = per });
        }

        document["customerCharges"] = charges;
        record.ReportIfThere(Carried.No, "A charge for each further meter; there is one meter.", "fixedchargeeaaddl");
    }

    public static void WriteMinimum(DatabaseRecord record, JsonObject document)
    {
        var minimum = Amount(record, "mincharge", "minchargeunits", 0, "minmonthlycharge", "month") ?? Amount(record, "annualmincharge", "", 0,
            "annualmincharge", "year");
        if (minimum is not var (amount, per) || amount == 0)
        {
            return;
        }

        document["minimumBill"] = new JsonObject
        {
            ["amount"] = amount,
            ["per"] = per,
            ["counts"] = new JsonArray("customerCharge", "energyCharge", "demandCharge", "adjustment"),
        };
        record.Report("<minimum: what counts>", Carried.WithAssumption, "All charges before taxes are taken to count towards the minimum bill."
            + (per == "year" ? " A minimum for a year is spread over its billing periods; a settlement at the end of the year is not made." : ""));
    }

    private static (decimal Amount, string Per)? Amount(DatabaseRecord record, string field, string unitField, decimal least, string oldField, string oldPer)
    {
        if (!record.Has(field))
        {
            if (record.Number(oldField, least, Most) is not { } old)
            {
                return null;
            }

            record.Report(oldField, Carried.Yes);
            return (old, oldPer);
        }

        var amount = record.Number(field, least, Most);
        if (field == oldField)
        {
            record.Report(field, Carried.Yes);
            return amount is { } a ? (a, oldPer) : null;
        }

        var unit = record.Text(unitField, 20).Replace(" ", "", StringComparison.Ordinal).ToLowerInvariant();
        var per = unit switch { "$/day" => "day", "$/month" or "" => "month", "$/year" => "year", _ => null };
        if (per is null)
        {
            record.Fault(unitField, "It must be $/day, $/month or $/year.", record.Find(unitField));
        }

        record.Report(field, unit.Length > 0 ? Carried.Yes : Carried.WithAssumption, unit.Length > 0 ? "" : "No unit is given; taken as per month.");
        record.Covered(unitField);
        return amount is { } stated && per is not null ? (stated, per) : null;
    }
}
