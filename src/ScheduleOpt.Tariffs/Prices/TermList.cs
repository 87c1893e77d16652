using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>Lists the terms and edges of one billing period.</summary>
/// <param name="layout">The plan's layout.</param>
/// <param name="use">Expected use of the billing period.</param>
/// <param name="prices">Its prices.</param>
/// <param name="carried">What earlier billing periods hand on.</param>
/// <param name="soFar">Its lines with use before the expected one: see <see cref="UseSoFar"/>; none: there was none.</param>
internal sealed class TermList(PlanLayout layout, PeriodUse use, PeriodPrices prices, CarriedState carried, IReadOnlyList<BillLine>? soFar = null)
{
    private readonly Interval billingPeriod = new(use.Period.Start, use.Period.End);

    // What the power metered so far adds to each demand charge of the expected use. [currency]
    private readonly Dictionary<string, decimal> dueSoFar = [];

    public List<PriceTerm> Terms { get; } = [];

    public List<PriceEdge> Edges { get; } = [];

    /// <summary>Adds all of them.</summary>
    /// <param name="from">Start of the hours that are listed.</param>
    /// <param name="until">Their end.</param>
    /// <param name="dearest">The largest price per kWh of the billing period, as a size. [currency/kWh]</param>
    public void Add(Instant from, Instant until, decimal dearest)
    {
        foreach (var charge in prices.Charges)
        {
            if (charge.Edge() is { } edge)
            {
                Terms.Add(charge.Term(billingPeriod, prices.Hours(charge.Charge.Scope, from, until))!);
                Edges.Add(edge);
            }
        }

        foreach (var demand in layout.DemandCharges.Where(d => prices.Expected.BilledKw.ContainsKey(d.Charge.Name)))
        {
            AddDemand(demand, from, until);
        }

        AddMinimum(dearest);
        AddBands();
        AddPercentages(dearest);
        AddExport();
        AddFlow();
        AddCreditBank(dearest);
    }

    private void AddDemand(DemandLayout demand, Instant from, Instant until)
    {
        var charge = demand.Charge;
        var expected = demand.Measured(use);
        var measured = Math.Max(expected, prices.Expected.DemandSoFarKw.GetValueOrDefault(charge.Name));
        var floor = Math.Max(charge.MinimumKw, demand.Floor(carried.Earlier(charge, use.MonthIndex)));
        var factor = demand.Factor(use) * prices.Expected.Stack.Of(BillPart.DemandCharge, charge.Name);
        var averaging = Duration.FromMinutes(charge.AveragingMinutes);
        DemandPrice[] blocks = [.. charge.Blocks.Select(b => new DemandPrice(b.UpToKw, b.PricePerKw * factor))];
        dueSoFar[charge.Name] = Due(blocks, Math.Max(measured, floor)) - Due(blocks, Math.Max(expected, floor));
        var rises = blocks.Zip(blocks.Skip(1), (a, b) => b.PricePerKw >= a.PricePerKw).All(r => r);
        Terms.Add(new DemandTerm(
            charge.Name,
            billingPeriod,
            rises && charge is { MeanOfDailyHighest: false, KwDecimals: 6 },

            // Averages under way at the start began before it: whether in these hours, only the hours before it say.
            prices.Hours(demand.Scope, Instant.Max(billingPeriod.Start, from - averaging), until),
            averaging,
            charge.Sliding,
            measured,
            floor,
            prices.Expected.BilledKw[charge.Name],
            blocks,
            charge.Ratchet?.Percent)
        {
            RoundedAwayKw = demand.RoundedAwayKw,
            MeanOfDays = charge.MeanOfDailyHighest ? charge.HighestDays ?? int.MaxValue : null,
        });
        if (use.Billed is { } billed)
        {
            var step = demand.Step(billed.Metered);
            long highest = 0, second = 0;
            foreach (var (_, energy) in demand.Averages(use, billed.Metered))
            {
                (highest, second) = energy >= highest ? (energy, highest) : (highest, Math.Max(second, energy));
            }

            var gap = DemandLayout.Kw(highest - second, step);
            Edges.Add(new(EdgeKind.NewPeak, charge.Name, use.Period.Start, Math.Max(gap, floor - measured), gap, "kW", charge.KwDecimals < 6));
        }
    }

    private static decimal Due(DemandPrice[] blocks, decimal kw)
    {
        var (due, from) = (0m, 0m);
        foreach (var block in blocks)
        {
            var until = block.UpToKw is { } edge ? Math.Min(edge, kw) : kw;
            due += Math.Max(0, until - from) * block.PricePerKw;
            from = Math.Max(from, until);
        }

        return due;
    }

    private void AddMinimum(decimal dearest)
    {
        if (prices.Expected.IsMinimumLeftOut || layout.Plan.MinimumBill is not { } minimum)
        {
            return;
        }

        // Power is that of the expected use, and what was metered so far: of the use before it no hour is known.
        var lines = soFar is null
            ? prices.Expected.Lines
            : soFar.Where(l => l.Part != BillPart.DemandCharge).Concat(prices.Expected.Lines.Where(l => l.Part == BillPart.DemandCharge));
        var counted = lines.Where(minimum.IsCounted).Sum(l => l.Amount + (l.Part == BillPart.DemandCharge ? dueSoFar.GetValueOrDefault(l.Charge) : 0));
        var term = new MinimumTerm("Minimum bill", billingPeriod, minimum.Amount * use.Units(minimum.Per), counted)
        {
            Factor = minimum.AfterTaxes ? 1 : prices.Expected.Stack.Of(BillPart.MinimumBill, PercentageStack.MinimumLine),
        };
        Terms.Add(term);
        Edges.Add(AtPrice(EdgeKind.MinimumBill, term.Name, term.Minimum - counted, dearest));
    }

    private void AddBands()
    {
        foreach (var (charge, scope) in layout.CustomerCharges.Where(c => c.Charge.UseBand is not null && c.Scope.IsIn(use)))
        {
            var price = charge.PerServiceKw ? charge.Amount * layout.ServiceKw : charge.Amount;
            AddBand(charge.Name, charge.UseBand!, scope.Units(use, charge.Per) * price, BillPart.CustomerCharge);
        }

        foreach (var (credit, scope) in layout.Credits.Where(c => c.Credit.UseBand is not null && (c.Credit.Per == ChargeUnit.KilowattHour ? c.Scope.PricesUseOf(use) : c.Scope.IsIn(use))))
        {
            var quantity = credit.Per == ChargeUnit.KilowattHour ? PeriodUse.Kwh(scope.MicroKwh(use)) : scope.Units(use, credit.Per);
            AddBand(credit.Name, credit.UseBand!, -quantity * credit.Amount, BillPart.Credit);
        }
    }

    private void AddBand(string name, UseBand band, decimal unit, BillPart part)
    {
        var used = prices.UsedKwh;

        // A step down counts as percentages make the most of it, one up as they make the least.
        var stack = unit > 0 == band.Holds(used) ? prices.Expected.Greatest : prices.Expected.Stack;
        var amount = unit * stack.Of(part, name);
        Terms.Add(new BandTerm(name, billingPeriod, band.OverKwh, band.UpToKwh, used, amount));
        decimal? more = null, less = null;
        foreach (var limit in new[] { band.OverKwh, band.UpToKwh }.OfType<decimal>())
        {
            if (limit >= used)
            {
                more = Math.Min(more ?? decimal.MaxValue, limit - used);
            }
            else
            {
                less = Math.Min(less ?? decimal.MaxValue, used - limit);
            }
        }

        Edges.Add(new(EdgeKind.ConditionalAmount, name, use.Period.Start, more, less, "kWh", true));
    }

    private void AddPercentages(decimal dearest)
    {
        foreach (var outcome in prices.Expected.Percentages)
        {
            Terms.Add(new PercentageTerm(outcome.Tax.Name, billingPeriod, outcome.Tax.Charged, outcome.Base, outcome.Cap));
            if (outcome.Cap is { } cap)
            {
                // The base may grow by the dearest price, the cap by its price per kWh.
                Edges.Add(AtPrice(EdgeKind.PercentageCap, outcome.Tax.Name, cap - outcome.Plain, (dearest * Math.Abs(outcome.Tax.Charged) / 100) + (outcome.Tax.OrPerKwh ?? 0)));
            }
        }
    }

    private void AddExport()
    {
        foreach (var charge in layout.ExportPrices.Where(c => c.Charge.HasBlocks && c.Scope.PricesUseOf(use)))
        {
            var (exported, limits) = (PeriodUse.Kwh(charge.Scope.MicroKwh(use, export: true)), charge.Limits(use, 0));
            var block = ChargeLayout.BlockAfter(exported, limits);
            Edges.Add(new(
                EdgeKind.Block,
                charge.Charge.Name,
                use.Period.Start,
                limits[block] == decimal.MaxValue ? null : limits[block] - exported,
                block == 0 ? null : exported - limits[block - 1],
                "kWh",
                false));
        }
    }

    private void AddFlow()
    {
        if (layout.Plan.Export?.Kind != ExportKind.NetBilling || use.Billed is not { Metered: var import, Export: var export })
        {
            return;
        }

        // The interval nearest to balance.
        decimal? more = null, less = null;
        long start = import.StartSecond, length = import.IntervalSeconds;
        for (var i = 0; i < import.Count; i++)
        {
            if (start + (i * length) >= use.Period.Start.ToUnixTimeSeconds() && start + (i * length) < use.Period.End.ToUnixTimeSeconds())
            {
                var (imported, exported) = (PeriodUse.Kwh(import.MicroKilowattHours[i]), export is null ? 0 : PeriodUse.Kwh(export.MicroKilowattHours[i]));
                more = exported > 0 ? Math.Min(more ?? decimal.MaxValue, exported) : more;
                less = imported > 0 ? Math.Min(less ?? decimal.MaxValue, imported) : less;
            }
        }

        Edges.Add(new(EdgeKind.ZeroNetFlow, "Export", use.Period.Start, more, less, "kWh", false));
    }

    private void AddCreditBank(decimal dearest)
    {
        if (prices.Expected.CreditBeyondDue is { } beyond)
        {
            Edges.Add(AtPrice(EdgeKind.CreditBank, "Export credit", beyond, dearest));
        }
    }

    private PriceEdge AtPrice(EdgeKind kind, string name, decimal gap, decimal dearest)
    {
        decimal? distance = dearest == 0 ? null : Math.Abs(gap) / dearest;
        return new(kind, name, use.Period.Start, distance, distance, "kWh", false);
    }
}
