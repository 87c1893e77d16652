using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Tests;

// The two outputs of a rate plan agree: before rounding, bill(use + delta) - bill(use) is delta times the price while no edge is passed, and lies between the
// prices on both sides where one is.
public class PriceDifferenceTests
{
    private const int Months = 3;

    public static TheoryData<string> SamplePlans => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(SamplePlans))]
    public void Price_InsideTheEdges_IsTheDifferenceOfTwoBills(string id)
    {
        var year = new Trial(id);
        int more = 0, less = 0;
        for (var hour = 5; hour < year.Hours; hour += 41)
        {
            foreach (var sign in new[] { 1, -1 })
            {
                var (price, room) = year.At(hour, sign);
                var delta = Math.Min(0.4m, Math.Floor(room * 0.9m * 1_000_000) / 1_000_000);
                if (price is { } p && delta > 0.001m)
                {
                    var off = year.Difference(hour, sign * delta) - (sign * delta * p);
                    Assert.True(Math.Abs(off) < 0.000000001m, $"hour {hour}, {sign * delta} kWh at {p}: {off}");
                    _ = sign > 0 ? more++ : less++;
                }
            }
        }

        Assert.True(more > 10 && less > 10, $"{more} more, {less} less");
    }

    [Theory]
    [InlineData("sample-electric-small-home", EdgeKind.Block)]
    [InlineData("sample-electric-all-electric-home", EdgeKind.Block)]
    public void Price_AcrossAnEdge_LiesBetweenBothSides(string id, EdgeKind kind)
    {
        var year = new Trial(id);
        var across = 0;
        foreach (var hour in Enumerable.Range(0, year.Hours).Where(h => h % 97 == 0))
        {
            var month = year.Prices.Edges.Last(e => e.BillingPeriodStart <= year.Instant(hour)).BillingPeriodStart;
            foreach (var (edge, sign) in year.Prices.Edges.Where(e => e.Kind == kind && e.BillingPeriodStart == month).SelectMany(e => new[] { (e, 1), (e, -1) }))
            {
                var distance = (sign > 0 ? edge.More : edge.Less) ?? 10_000;
                var delta = Math.Round(distance + 40, 6);
                if (distance is > 0 and < 2000 && (sign > 0 || year.Load[hour] > (double)delta))
                {
                    var there = year.With(hour, sign * delta);
                    decimal here = year.Prices.At(year.Instant(hour)).ImportPerKwh, beyond = there.At(year.Instant(hour)).ImportPerKwh;
                    var mean = year.Difference(hour, sign * delta) / (sign * delta);
                    Assert.InRange(mean, Math.Min(here, beyond) - 0.000000001m, Math.Max(here, beyond) + 0.000000001m);
                    across++;
                }
            }
        }

        Assert.True(across > 5, $"{across}");
    }

    // Hand-made. A month of 1 kWh in one hour: energy 0.10, of a minimum of 5.00 counted 0.10. One kWh more costs nothing; 60 kWh more cost 60 x 0.10 less what was
    // missing.
    [Fact]
    public void MinimumBill_WhileItBinds_IsATermWithItsDistance()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            minimumBill: { amount: 5, per: month, counts: [energyCharge] }
            """);
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(31), Plans.OneMonth(1));

        var term = Assert.IsType<MinimumTerm>(Assert.Single(prices.Terms));
        Assert.True(term is { Binds: true, IsConvex: true, Minimum: 5, Counted: 0.1m });
        Assert.Equal(49m, prices.Edges.Single(e => e.Kind == EdgeKind.MinimumBill).More);
        Assert.Equal(0m, Biller.Bill(plan, Plans.OneMonth(50)).Total - Biller.Bill(plan, Plans.OneMonth(1)).Total);
        Assert.Equal(1.10m, Biller.Bill(plan, Plans.OneMonth(61)).Total - Biller.Bill(plan, Plans.OneMonth(1)).Total);
    }

    // Hand-made. 5 % on 10.00 + 0.10 a kWh, at most 2.00: at 200 kWh 1.50, and the cap is 100 kWh away; the distance listed is not longer. Beyond it a kWh costs 0.10.
    [Fact]
    public void PercentageCap_AtItsCap_IsAKinkWithItsDistance()
    {
        var plan = Plans.Of("""
            customerCharges: [ { name: Basic, amount: 10, per: month } ]
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            taxes: [ { name: Fee, percent: 5, atMost: { amount: 2, per: month }, on: { parts: [customerCharge, energyCharge] } } ]
            """) with
        {
            Rounding = Rounding.None,
        };
        PriceSchedule Prices(double kwh) => PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(31), Plans.OneMonth(kwh));

        Assert.InRange(Prices(200).Edges.Single().More!.Value, 90, 100);
        Assert.Equal((0.105m, 0.10m), (Prices(200).Spans[0].ImportPerKwh, Prices(350).Spans[0].ImportPerKwh));
        Assert.Equal(15.50m, Biller.Bill(plan, Plans.OneMonth(350)).Total - Biller.Bill(plan, Plans.OneMonth(200)).Total);
        Assert.False(Prices(200).Terms.OfType<PercentageTerm>().Single().IsConvex);
    }

    // Hand-made. 4 kW in the highest hour, 3 in the next, floor 3.5 by minimum. Above 4 kW a kW costs 10 x 1.05; below, the bill falls to 3.5 kW and no further.
    [Fact]
    public void Demand_AroundThePeak_IsATermWithItsDistance()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, pricePerKw: 10, averagingMinutes: 60, minimumKw: 3.5 } ]
            taxes: [ { name: Tax, percent: 5, on: { parts: [demandCharge] } } ]
            """) with
        {
            Rounding = Rounding.None,
        };
        var use = Plans.WithUse(Start, 31 * 24, (5, 4), (8, 3));
        var prices = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(31), use);

        var term = Assert.IsType<DemandTerm>(prices.Terms[0]);
        Assert.True(term is { MeasuredKw: 4, FloorKw: 3.5m, BilledKw: 4, PricePerKw: 10.5m, IsConvex: true });
        var edge = prices.Edges.Single(e => e.Kind == EdgeKind.NewPeak);
        Assert.Equal((1m, 1m, "kW"), (edge.More!.Value, edge.Less!.Value, edge.Unit));
        decimal Bill(params (int, double)[] kwh) => Biller.Bill(plan, Plans.WithUse(Start, 31 * 24, kwh)).Total;
        Assert.Equal(10.5m, Bill((5, 5), (8, 3)) - Bill((5, 4), (8, 3)));
        Assert.Equal(0, Bill((5, 4), (8, 4)) - Bill((5, 4), (8, 3)));
        Assert.Equal(-5.25m, Bill((5, 2), (8, 3)) - Bill((5, 4), (8, 3)));
    }

    // Hand-made. A ratchet of 50 % over 11 months: one kW more in January's peak costs its price there and half of it in each of the eleven months whose own
    // demand is lower.
    [Theory]
    [InlineData(10, "65")]
    [InlineData(2, "10")]
    public void Ratchet_NewPeak_CostsInAllAffectedPeriods(double januaryKw, string expected)
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            demandCharges: [ { name: Demand, pricePerKw: 10, averagingMinutes: 60, ratchet: { percent: 50, months: 11 } } ]
            """);
        decimal Year(double peak)
        {
            var kwh = Enumerable.Repeat(2.0, 8760).ToArray();
            kwh[7] = peak;
            return Biller.Bill(plan, MeteredSeries.FromKilowattHours(Start, Duration.FromHours(1), kwh)).Total;
        }

        Assert.Equal(decimal.Parse(expected, null), Year(januaryKw + 1) - Year(januaryKw));
        var term = (DemandTerm)PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(31), Plans.WithUse(Start, 31 * 24, (7, januaryKw))).Terms[0];
        Assert.Equal((10m, 50m), (term.PricePerKw, term.RatchetPercent!.Value));
    }

    // Hand-made. A credit of 30.00 between 500 and 1,000 kWh: a jump at each end, with its distance.
    [Fact]
    public void ConditionalCredit_AtItsLimits_IsAJump()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0.10 } ]
            credits: [ { name: Usage credit, amount: 30, per: billingPeriod, useBand: { overKwh: 500, upToKwh: 1000 } } ]
            """);
        var edge = PriceScheduleBuilder.Build(plan, Start, Start + Duration.FromDays(31), Plans.OneMonth(600)).Edges.Single();

        Assert.Equal((400m, 100m, true), (edge.More!.Value, edge.Less!.Value, edge.IsJump));
        Assert.Equal([50m, 20.001m, 70m, 100.001m], new[] { 500, 500.01, 1000, 1000.01 }.Select(kwh => Biller.Bill(plan with { Rounding = Rounding.None }, Plans.OneMonth(kwh)).Total));
    }

    private static readonly Instant Start = NodaTime.Instant.FromUtc(2026, 1, 1, 0, 0);

    /// <summary>A sample plan, three months of random use in its zone, and the difference that a little more or less makes.</summary>
    private sealed class Trial
    {
        private readonly RatePlan plan;
        private readonly Instant start;
        private readonly MeteredSeries? export;
        private readonly BillInput input;
        private readonly decimal total;

        public Trial(string id)
        {
            plan = RatePlanLibrary.Find(id)!;
            // What is banked is used later or never; means over days have a test of their own.
            plan = plan with
            {
                Rounding = Rounding.None,
                Export = plan.Export is { } e ? e with { CreditUse = CreditUse.ThisBill } : null,
                DemandCharges = [.. plan.DemandCharges.Where(d => !d.MeanOfDailyHighest)],
            };
            start = plan.Zone.AtStartOfDay(new LocalDate(2027, 1, 1)).ToInstant();
            Hours = (int)(plan.Zone.AtStartOfDay(new LocalDate(2027, 1 + Months, 1)).ToInstant() - start).TotalHours;
            var random = new Random(20270101);
            Load = [.. Enumerable.Range(0, Hours).Select(h => h % 97 == 0 ? 60 : random.NextDouble() * 1.2)];
            double[] sun = [.. Enumerable.Range(0, Hours).Select(h => h % 24 is > 16 and < 22 ? random.NextDouble() * 5 : 0)];
            export = plan.Export is null ? null : Series(sun);
            input = Plans.InputFor(Series(Load), export);
            Prices = Priced(Series(Load));
            total = Bill(Series(Load));
        }

        public int Hours { get; }

        public double[] Load { get; }

        public PriceSchedule Prices { get; }

        public Instant Instant(int hour) => start + Duration.FromHours(hour);

        /// <summary>The price in an hour, none where it changes inside or an edge that has no distance in kWh matters, and how far the nearest edge is.</summary>
        public (decimal? Price, decimal Room) At(int hour, int sign)
        {
            var span = Prices.At(Instant(hour));
            if (span != Prices.At(Instant(hour) + Duration.FromMinutes(59)))
            {
                return (null, 0);
            }

            var load = (decimal)Load[hour];
            var sold = export is null ? 0 : export.MicroKilowattHours[hour] / 1_000_000m;
            var begins = Prices.Terms.Select(t => t.BillingPeriod).FirstOrDefault(p => p.Contains(Instant(hour))) is { HasStart: true } p ? p.Start : start;
            var room = sign < 0 ? load : 1;
            foreach (var edge in Prices.Edges.Where(e => e.BillingPeriodStart == begins && e.Unit == "kWh"))
            {
                // The nearest interval to balance is another one: this hour's own balance counts below.
                if (edge.Kind != EdgeKind.ZeroNetFlow || plan.Export!.Kind == ExportKind.NetMetering)
                {
                    room = Math.Min(room, (sign > 0 ? edge.More : edge.Less) ?? 1);
                }
            }

            if (Prices.Terms.OfType<MinimumTerm>().Any(m => m.BillingPeriod.Contains(Instant(hour)) && m.Binds)
                || Prices.Terms.OfType<DemandTerm>().Any(d => d.BillingPeriod.Contains(Instant(hour)) && load + 1 >= d.MeasuredKw))
            {
                return (null, 0);
            }

            var netted = plan.Export is { NettingMinutes: not 0 };
            var net = load - sold;
            room = plan.Export is null || !netted ? room : Math.Min(room, sign > 0 ? (net < 0 ? -net : 1) : (net > 0 ? net : 1));
            return (netted && (net < 0 || (net == 0 && sign < 0)) ? span.ExportPerKwh : span.ImportPerKwh, room);
        }

        public decimal Difference(int hour, decimal delta) => Bill(Changed(hour, delta)) - total;

        public PriceSchedule With(int hour, decimal delta) => Priced(Changed(hour, delta));

        private PriceSchedule Priced(MeteredSeries load) => PriceScheduleBuilder.Build(plan, start, start + Duration.FromHours(Hours), load, input: input);

        private decimal Bill(MeteredSeries load) => Biller.Bill(plan, load, input: input).Total;

        private MeteredSeries Changed(int hour, decimal delta)
        {
            var kwh = (double[])Load.Clone();
            kwh[hour] = (double)((decimal)Math.Round(kwh[hour], 6) + delta);
            return Series(kwh);
        }

        private MeteredSeries Series(double[] kwh) => MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), kwh);
    }
}
