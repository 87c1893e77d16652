using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>Net metering: kWh against kWh, with what is left banked.</summary>
internal static class EnergyBank
{
    /// <summary>The metering intervals with the import reduced, for one billing period; the bank holds what is left.</summary>
    public static void Apply(Context context, BillingPeriod period, List<Metered> metered, Dictionary<string, long> bank)
    {
        // "An interval that a border of billing periods cuts belongs, in this step, to the billing period in which it starts; what is left of it is then split by time like any other."
        var mine = Enumerable.Range(0, metered.Count).Where(index => metered[index].Start >= period.Start && metered[index].Start < period.End).ToList();

        // "For each billing period and group the credit is the group's export plus its bank from before;"
        foreach (var index in mine)
        {
            var group = Group(context, metered[index].Start);
            bank[group] = bank.GetValueOrDefault(group) + metered[index].Export;
        }

        // "it is taken off the group's imports in order of time until it or they are used up. What is left is the new bank."
        foreach (var index in mine)
        {
            var group = Group(context, metered[index].Start);
            var used = Math.Min(bank[group], metered[index].Import);
            bank[group] -= used;
            metered[index] = metered[index] with { Import = metered[index].Import - used };
        }
    }

    /// <summary>"the group of the period (plan's own calendar) that holds at its start (`bankBy: period`), or all to one (`pool`)"</summary>
    private static string Group(Context context, Instant start) =>
        context.Plan.Child("export")!.Text("bankBy") == "period" ? context.Calendar("").At(start).Period : "";
}
