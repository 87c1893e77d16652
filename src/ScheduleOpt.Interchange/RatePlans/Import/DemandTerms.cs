namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Reads what belongs to demand charges beside their prices: units, averaging, months, ratchets.</summary>
internal sealed class DemandTerms(DatabaseRecord record, int flatPeriods)
{
    /// <summary>What a price per kW is for: month or day; none for a unit that a meter does not show.</summary>
    public string? Per(string field)
    {
        var unit = record.Text(field, 20).ToLowerInvariant();
        switch (unit)
        {
            case "" or "kw":
                record.Report(record.Has(field) ? field : $"<{field}>", unit.Length > 0 ? Carried.Yes : Carried.WithAssumption, unit.Length > 0
                    ? "" : "No unit is given; taken as kW of each billing period.");
                return "month";
            case "kw daily":
                record.Report(field, Carried.Yes);
                return "day";
            case "kva" or "kva daily":
                record.Report(field, Carried.WithAssumption, "kVA are taken as kW: a power factor of 1.");
                return unit == "kva" ? "month" : "day";
            default:
                record.Report(field, Carried.No, $"Demand in {unit} is not metered; the charge is left out.");
                return null;
        }
    }

    /// <summary>Length over which demand is averaged. [min]</summary>
    public int Minutes()
    {
        var minutes = record.Number("demandwindow", 0, 1440);
        if (minutes is 15 or 30 or 60)
        {
            record.Report("demandwindow", Carried.Yes);
            return (int)minutes;
        }

        var taken = minutes is null or < 15 ? 15 : minutes < 30 ? 30 : 60;
        record.Report(minutes is null ? "<demandwindow>" : "demandwindow", Carried.WithAssumption,
            minutes is null ? "No length is given; demand is averaged over 15 minutes."
                : $"Demand is averaged over {taken} minutes, the nearest length that can be said.");
        return taken;
    }

    /// <summary>The flat period of each month.</summary>
    public int[] Months()
    {
        var months = record.List("flatdemandmonths", 12);
        if (flatPeriods == 0 || (months.Length == 0 && flatPeriods == 1))
        {
            return new int[12];
        }

        var read = new int[12];
        if (months.Length != 12)
        {
            record.Fault("flatdemandmonths", "It must be 12 numbers of periods, January first.", record.Find("flatdemandmonths"));
            return read;
        }

        for (var m = 0; m < 12; m++)
        {
            if (!months[m].TryIndex(out read[m]) || read[m] < 0 || read[m] >= flatPeriods)
            {
                record.Fault($"flatdemandmonths/{m}", $"It must be the number of a period, from 0 to {flatPeriods - 1}.", months[m]);
                read[m] = 0;
            }
        }

        record.Report("flatdemandmonths", Carried.Yes);
        return read;
    }

    /// <summary>Shares of past peaks by month. [0..1]</summary>
    public decimal[] Ratchet()
    {
        var values = record.List("demandratchetpercentage", 12);
        var read = new decimal[12];
        if (values.Length == 0)
        {
            return read;
        }

        if (values.Length != 12)
        {
            record.Fault("demandratchetpercentage", "It must be 12 shares, January first.", record.Find("demandratchetpercentage"));
            return read;
        }

        for (var m = 0; m < 12; m++)
        {
            var share = record.Number(values[m], $"demandratchetpercentage/{m}", 0, 100) ?? 0;
            // Stored records hold shares, some readers take percentages: 0.35 and 35 are the same, and 1 is the whole.
            read[m] = share > 1 ? share / 100 : share;
            if (read[m] is > 0 and < 0.01m)
            {
                record.Fault($"demandratchetpercentage/{m}", "A ratchet must be at least one per cent.", values[m]);
            }
        }

        if (read.All(r => r == 0))
        {
            record.Report("demandratchetpercentage", Carried.Yes);
        }
        else if (flatPeriods == 0)
        {
            record.Report("demandratchetpercentage", Carried.No, "There is no flat demand charge that it would apply to.");
        }
        else
        {
            record.Report("demandratchetpercentage", Carried.WithAssumption,
                "The billed demand is at least this share of the highest demand of the 11 months before; the database does not say how many months count.");
        }

        return flatPeriods == 0 ? new decimal[12] : read;
    }
}
