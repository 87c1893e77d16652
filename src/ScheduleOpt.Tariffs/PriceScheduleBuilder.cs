using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Prices;

namespace ScheduleOpt.Tariffs;

/// <summary>Works out what one more kWh costs at each instant: the rate plan as the scheduler sees it.</summary>
public static class PriceScheduleBuilder
{
    // No billing period reaches so far; a date beyond is a slip, and would lay out centuries.
    private const int YearsToAReading = 10;

    /// <summary>The price schedule of a rate plan over a span of time.</summary>
    /// <param name="plan">A plan that <see cref="RatePlanCheck"/> finds in order.</param>
    /// <param name="from">Start, included; a whole second.</param>
    /// <param name="until">End, excluded; a whole second, later than the start.</param>
    /// <param name="expectedUse">Expected use without what is to be scheduled. All of it that lies in a billing period counts towards the blocks of that
    /// billing period, before <paramref name="from"/> too.</param>
    /// <param name="usedSoFar">Energy metered in the billing period of <paramref name="from"/> before <paramref name="expectedUse"/> begins; zero or
    /// more. Its hours are not known: towards a minimum bill it counts as used evenly.</param>
    /// <param name="readingDates">Dates at whose start the meter is read; none for calendar months. Those more than ten years away are ignored.</param>
    /// <param name="input">What is given beside the plan; its state is that before the first billing period. None: nothing.</param>
    /// <param name="demandSoFarKw">Highest average power metered in the billing period of <paramref name="from"/> so far, by name of the demand charge; zero or
    /// more. None: none known. [kW]</param>
    /// <returns>Energy charge in the block reached, plus adjustments, plus the percentages on both. Customer charges don't depend on use; demand
    /// charges, a minimum bill and conditional amounts are not in a price per kWh: they are terms, and warnings say so.</returns>
    /// <exception cref="ArgumentException">A price series that the plan needs is missing or has a gap.</exception>
    public static PriceSchedule Build(
        RatePlan plan,
        Instant from,
        Instant until,
        MeteredSeries? expectedUse = null,
        Energy usedSoFar = default,
        IReadOnlyList<LocalDate>? readingDates = null,
        BillInput? input = null,
        IReadOnlyDictionary<string, decimal>? demandSoFarKw = null) => Build(plan, from, until, expectedUse, usedSoFar, readingDates, input, demandSoFarKw, null);

    /// <summary>What bounds the bills of a span of whole calendar months from below.</summary>
    /// <param name="plan">A plan that <see cref="RatePlanCheck"/> finds in order.</param>
    /// <param name="expectedUse">The use that is added to, over the whole span.</param>
    /// <param name="mostAddedKw">The most power that is added. [kW]</param>
    /// <param name="input">What is given beside the plan. None: nothing.</param>
    /// <exception cref="ArgumentException">A price series that the plan needs is missing or has a gap.</exception>
    public static LeastBill Least(RatePlan plan, MeteredSeries expectedUse, decimal mostAddedKw, BillInput? input = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(expectedUse);
        var totals = new LeastTotals(plan.Rounding, mostAddedKw);
        var prices = Build(plan, expectedUse.Start, expectedUse.End, expectedUse, default, null, input, null, totals);
        var open = new SortedSet<string>(totals.Open, StringComparer.Ordinal);
        LeastCoverage.AddOpen(open, plan, prices, expectedUse);
        return new LeastBill(prices, totals.IsLower, totals.Total, [.. open]);
    }

    private static PriceSchedule Build(
        RatePlan plan,
        Instant from,
        Instant until,
        MeteredSeries? expectedUse,
        Energy usedSoFar,
        IReadOnlyList<LocalDate>? readingDates,
        BillInput? input,
        IReadOnlyDictionary<string, decimal>? demandSoFarKw,
        LeastTotals? least)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(until, from);
        ArgumentOutOfRangeException.ThrowIfLessThan(usedSoFar, Energy.Zero);
        var given = input ?? BillInput.None;
        var periods = Whole(plan.Zone, from, until, readingDates);
        CheckPrices(plan, from, until, given);

        // Differences between bills are taken before rounding.
        var layout = new PlanLayout(plan with { Rounding = Rounding.None }, periods[0].Start, periods[^1].End, given);
        var inside = Inside(expectedUse, periods);
        var billed = inside is not null ? SeriesToBill.Of(Clipped(layout, inside, given), periods, inside) : null;
        var carried = new CarriedState(given.State);
        var built = new Built([], PriceWarnings.Of(layout.Plan, from, until), [], []);
        for (var i = 0; i < periods.Length; i++)
        {
            var use = UseSorter.Sort(layout, periods[i], billed?.Use);
            var expected = ExpectedStatement.Of(layout, use, carried, i == 0 ? demandSoFarKw : null);
            expected = least?.Add(layout, use, expected) ?? expected;
            var prices = new PeriodPrices(layout, use, i == 0 ? (decimal)usedSoFar.KilowattHours : 0, expected);
            var soFar = i == 0 && usedSoFar > Energy.Zero && layout.Plan.MinimumBill is not null
                ? UseSoFar.Lines(layout, periods, inside, from, (decimal)usedSoFar.KilowattHours)
                : null;
            Add(built, layout, prices, use, carried, soFar, Instant.Max(from, periods[i].Start), Instant.Min(until, periods[i].End), billed?.Reached?[i]);
        }

        return new(built.Spans, until, plan.Currency, built.Warnings, built.Terms, built.Edges);
    }

    private sealed record Built(List<PriceSpan> Spans, List<string> Warnings, List<PriceTerm> Terms, List<PriceEdge> Edges);

    private static void Add(
        Built built, PlanLayout layout, PeriodPrices prices, PeriodUse use, CarriedState carried, IReadOnlyList<BillLine>? soFar,
        Instant from, Instant until, NetMeteringReach[]? reached)
    {
        // Under net metering a price may be that of another time of the billing period.
        var (first, last) = reached is null ? (from, until) : (use.Period.Start, use.Period.End);
        var own = prices.Spans(first.ToUnixTimeSeconds(), last.ToUnixTimeSeconds());
        var spans = (reached is not null ? NetMeteringPrices.Of(layout, use, [.. own], reached)
            : layout.Plan.Export?.Kind == ExportKind.NetMetering ? own.Select(s => s with { ExportPerKwh = s.ImportPerKwh })
            : own).ToList();
        for (var i = 0; i < spans.Count; i++)
        {
            var end = i + 1 < spans.Count ? spans[i + 1].Start : last;
            if (end > from && spans[i].Start < until)
            {
                built.Spans.Add(spans[i] with { Start = Instant.Max(spans[i].Start, from) });
            }
        }

        var list = new TermList(layout, use, prices, carried, soFar);
        list.Add(from, until, spans.Max(s => Math.Abs(s.ImportPerKwh)));
        if (reached is not null)
        {
            list.Edges.AddRange(NetMeteringPrices.Edges(layout, use, reached));
        }

        built.Terms.AddRange(list.Terms);
        built.Edges.AddRange(list.Edges);
        var start = use.Period.Start.InZone(layout.Plan.Zone).Date.ToString("uuuu-MM-dd", null);
        built.Warnings.AddRange(prices.Charges.Select(c => c.Warning(start)).Where(w => w.Length > 0));
    }

    private static void CheckPrices(RatePlan plan, Instant from, Instant until, BillInput input)
    {
        var faults = new List<PlanFault>();
        BillInputCheck.AddPrices(faults, plan.For(input.Choices), from.ToUnixTimeSeconds(), until.ToUnixTimeSeconds(), input);
        if (faults.Count > 0)
        {
            throw new ArgumentException(string.Join(" ", faults.Select(f => $"{f.Path}: {f.Rule} Found: {f.Found}")), nameof(input));
        }
    }

    private static MeteredSeries? Inside(MeteredSeries? series, BillingPeriod[] periods) =>
        series is null || series.Start >= periods[^1].End || series.End <= periods[0].Start ? null
        : series.Start >= periods[0].Start && series.End <= periods[^1].End ? series
        : series.Between(periods[0].Start, periods[^1].End);

    // Export stands beside the expected use, and is cut like it.
    private static PlanLayout Clipped(PlanLayout layout, MeteredSeries inside, BillInput given) =>
        given.Export is not { } export || export.Start == inside.Start && export.Count == inside.Count
            ? layout
            : new(layout.Plan, inside.Start, inside.End, given with { Export = export.Between(inside.Start, inside.End) });

    /// <summary>The whole billing periods that a span touches: limits follow their length, not the span's.</summary>
    private static BillingPeriod[] Whole(DateTimeZone zone, Instant from, Instant until, IReadOnlyList<LocalDate>? readingDates)
    {
        var (first, last) = (from.InZone(zone).Date, (until - Duration.Epsilon).InZone(zone).Date);
        var start = first.With(DateAdjusters.StartOfMonth);
        var end = last.With(DateAdjusters.EndOfMonth).PlusDays(1);
        if (readingDates is { Count: > 0 })
        {
            start = readingDates.Where(d => d <= first && d >= first.PlusYears(-YearsToAReading)).DefaultIfEmpty(start).Max();
            end = readingDates.Where(d => d > last && d <= last.PlusYears(YearsToAReading)).DefaultIfEmpty(end).Min();
        }

        return [.. BillingPeriod.Cut(zone, zone.AtStartOfDay(start).ToInstant(), zone.AtStartOfDay(end).ToInstant(), readingDates)
            .Where(p => p.End > from && p.Start < until)];
    }
}
