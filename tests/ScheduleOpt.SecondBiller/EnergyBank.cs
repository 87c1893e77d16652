using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>Net metering: kWh against kWh, with what is left banked.</summary>
internal static class EnergyBank
{
    /// <summary>The metering intervals of a billing period with the import reduced; the bank holds what is left.</summary>
    public static List<Metered> Apply(Context context, BillingPeriod period, IEnumerable<Metered> netted, Dictionary<string, long> bank)
    {
        // "An interval that a billing period's border cuts is billed in parts; its group is the same in both."
        var parts = netted.Where(item => item.Start < period.End && item.End > period.Start).Select(item =>
        {
            Instant from = Instant.Max(item.Start, period.Start), to = Instant.Min(item.End, period.End);
            return (Group: Group(context, item.Start), Part: new Metered(from, to, item.ImportBetween(from, to), item.ExportBetween(from, to)));
        }).ToList();

        // "For each billing period and group the credit is the group's export plus its bank from before;"
        foreach (var (group, part) in parts)
        {
            bank[group] = bank.GetValueOrDefault(group) + part.Export;
        }

        // "it is taken off the group's imports in order of time until it or they are used up. What is left is the new bank."
        var result = new List<Metered>();
        foreach (var (group, part) in parts)
        {
            var used = Math.Min(bank[group], part.Import);
            bank[group] -= used;
            result.Add(part with { Import = part.Import - used });
        }

        return result;
    }

    /// <summary>"the group of the period (plan's own calendar) that holds at its start (`bankBy: period`), or all to one (`pool`)"</summary>
    private static string Group(Context context, Instant start) =>
        context.Plan.Child("export")!.Text("bankBy") == "period" ? context.Calendar("").At(start).Period : "";
}
