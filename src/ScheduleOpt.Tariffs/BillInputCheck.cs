namespace ScheduleOpt.Tariffs;

/// <summary>Finds what is wrong with what is given beside a plan.</summary>
public static class BillInputCheck
{
    private const decimal LargestServiceKw = 10_000;

    // Far above any home's, and far below where sums overflow. [1e-6 kWh], [currency], [kW]
    private const long LargestBankMicroKwh = 1_000_000_000L * MeteredSeries.UnitsPerKilowattHour;
    private const decimal LargestCreditBank = 1_000_000_000_000m;
    private const decimal LargestPeakKw = 1_000_000_000m;

    /// <summary>Every fault; the path names the member of <see cref="BillInput"/>.</summary>
    public static IReadOnlyList<PlanFault> Faults(RatePlan plan, MeteredSeries series, BillInput input)
    {
        var faults = new List<PlanFault>();
        foreach (var (name, choice) in input.Choices)
        {
            var option = plan.Options.FirstOrDefault(o => o.Name == name);
            if (option is null)
            {
                faults.Add(new($"/choices/{name}", $"It must be an option of the plan: {Listed(plan.Options.Select(o => o.Name))}.", name));
            }
            else if (!option.Choices.Contains(choice))
            {
                faults.Add(new($"/choices/{name}", $"It must be one of {Listed(option.Choices)}.", choice));
            }
        }

        if (input.Export is { } export && (export.Start != series.Start || export.Interval != series.Interval || export.Count != series.Count))
        {
            faults.Add(new("/export", "Export must have the start, interval and length of the import.", $"{export.Count} intervals"));
        }

        if (input.ServiceKw is { } kw && (kw <= 0 || kw > LargestServiceKw))
        {
            faults.Add(new("/serviceKw", $"It must be more than 0 and at most {LargestServiceKw} kW.", $"{kw}"));
        }

        foreach (var name in input.Events.Keys.Where(n => plan.Events.All(e => e.Name != n)))
        {
            faults.Add(new($"/events/{name}", $"It must be an event of the plan: {Listed(plan.Events.Select(e => e.Name))}.", name));
        }

        foreach (var (name, called) in input.Events.SelectMany(e => e.Value.Select(c => (e.Key, c))).Where(e => e.c.To <= e.c.From))
        {
            faults.Add(new($"/events/{name}", "An event must end after it begins.", FormattableString.Invariant($"{called.From:uuuu-MM-ddTHH:mm}")));
        }

        AddState(faults, input.State);

        // Which prices are needed is known once the choices are.
        if (faults.Exists(f => f.Path.StartsWith("/choices/", StringComparison.Ordinal)))
        {
            return faults;
        }

        AddPrices(faults, plan.For(input.Choices), series.Start.ToUnixTimeSeconds(), series.End.ToUnixTimeSeconds(), input);
        return faults;
    }

    private static void AddState(List<PlanFault> faults, BillState state)
    {
        foreach (var (group, bank) in state.BankMicroKwh.Where(b => b.Value is < 0 or > LargestBankMicroKwh))
        {
            faults.Add(new($"/state/bankMicroKwh/{group}", "A bank must hold 0 to 1e9 kWh.", FormattableString.Invariant($"{bank} x 1e-6 kWh")));
        }

        // Below zero where exported energy had a price below zero.
        if (state.CreditBank is < -LargestCreditBank or > LargestCreditBank)
        {
            faults.Add(new("/state/creditBank", "A credit bank must hold -1e12 to 1e12 of the currency.", FormattableString.Invariant($"{state.CreditBank}")));
        }

        foreach (var peak in state.Peaks.Where(p => p.Kw is < 0 or > LargestPeakKw || p.Month is < 1 or > 12 || p.Year is < 1 or > 9999))
        {
            faults.Add(new(
                $"/state/peaks/{peak.Charge}",
                "A past peak must be 0 to 1e9 kW, in a month of 1 to 12 and a year of 1 to 9999.",
                FormattableString.Invariant($"{peak.Kw} kW in {peak.Year}-{peak.Month}")));
        }
    }

    /// <summary>Price series that are missing, or have a gap that no rule fills.</summary>
    /// <param name="faults">Where the faults go.</param>
    /// <param name="plan">The plan, its choices made.</param>
    /// <param name="from">Start of what is to be priced. [s since 1970-01-01T00:00Z]</param>
    /// <param name="until">End of it.</param>
    /// <param name="input">What is given.</param>
    internal static void AddPrices(List<PlanFault> faults, RatePlan plan, long from, long until, BillInput input)
    {
        foreach (var (name, prices) in input.Prices.Where(p => !p.Value.IsOnTheClock))
        {
            faults.Add(new(
                $"/prices/{name}",
                "A price series must start on a whole second and have an interval of whole minutes, from one minute to a day.",
                FormattableString.Invariant($"start {prices.Start}, interval {prices.Interval.TotalSeconds} s")));
        }

        foreach (var name in plan.PriceSeriesNames.Where(n => !input.Prices.ContainsKey(n)))
        {
            faults.Add(new($"/prices/{name}", "The plan needs this price series beside it.", "none"));
        }

        foreach (var gap in PriceGaps.Of(plan, NodaTime.Instant.FromUnixTimeSeconds(from), NodaTime.Instant.FromUnixTimeSeconds(until), input.Prices))
        {
            if (gap.FirstMissing is { } at)
            {
                faults.Add(new($"/prices/{gap.Series}", "The series must have a price for each interval of the bill, or the plan a rule for missing ones.", $"none at {at}"));
            }
        }
    }

    private static string Listed(IEnumerable<string> names) => names.DefaultIfEmpty("none").Aggregate((a, b) => $"{a}, {b}");
}
