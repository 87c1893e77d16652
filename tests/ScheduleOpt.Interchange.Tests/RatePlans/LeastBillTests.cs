using NodaTime;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

/// <summary>Bills at their least against the biller: whatever a car takes, whenever, no bill is below them; and where it takes little they are close.</summary>
public sealed class LeastBillTests(ITestOutputHelper output)
{
    private const int Seeds = 8;
    private const double MostKw = 11.5;

    // What is not exact: rounding, rebates, means of days, limits of percentages. [currency a year]
    private const decimal MostBelowIdle = 60;

    public static TheoryData<string> Ids => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Least_AnyUseAdded_IsNoMoreThanTheBill(string id) => Parallel.For(0, Seeds, seed =>
    {
        var random = new Random(seed);
        var plan = RatePlanLibrary.Find(id)!;
        var zone = plan.Zone;
        var start = new LocalDate(2026 + random.Next(2), 1, 1).AtStartOfDayInZone(zone).ToInstant();
        var (step, days) = (Duration.FromMinutes(random.Next(2) == 0 ? 15 : 60), 365);
        var count = (int)(Duration.FromDays(days) / step);
        var hours = step.TotalHours;
        var scale = plan.Metering == Metering.WholeHouse ? 0.2 + (3 * random.NextDouble()) : 0;
        var house = MeteredSeries.FromKilowattHours(start, step, [.. Enumerable.Range(0, count).Select(_ => scale * hours * random.NextDouble())]);
        var market = new PriceSeries(start, Duration.FromHours(1), [.. Enumerable.Range(0, 24 * days).Select(_ => (decimal?)(random.Next(-20, 120) / 1000m))]);
        var input = new BillInput
        {
            Choices = plan.Options.ToDictionary(o => o.Name, o => o.Choices[random.Next(o.Choices.Count)]),
            Prices = plan.PriceSeriesNames.ToDictionary(n => n, _ => market),
        };
        var least = PriceScheduleBuilder.Least(plan, house, (decimal)MostKw, input);
        Assert.Empty(least.Open);
        var charges = CoupledCharges.Of(least.Prices, house, zone);
        var prices = SpanPrices.Means(least.Prices, house);

        var idle = Biller.Bill(plan, house, input: input).Total;
        Assert.InRange(least.Total, idle - MostBelowIdle, idle);
        foreach (var shareOfDays in new[] { 0.02, 0.2, 0.9 })
        {
            var car = new double[count];
            for (var day = 0; day < days; day++)
            {
                var (from, kw) = (random.Next(24), MostKw * random.NextDouble());
                for (var m = 0; random.NextDouble() < shareOfDays && m < count / days; m += 1 + random.Next(4))
                {
                    car[(day * (count / days)) + ((int)(from / hours) + m) % (count / days)] = hours * kw;
                }
            }

            var series = MeteredSeries.FromKilowattHours(start, step, car);
            var bill = Biller.Bill(plan, house.Plus(series), input: input).Total;
            var bound = (double)least.Total + Added(charges, prices, series);
            Assert.True(bound <= (double)bill + 1e-6, FormattableString.Invariant($"{id}, seed {seed}, {series.TotalKilowattHours:0} kWh added: {bound} above {bill}"));
            output.WriteLine(FormattableString.Invariant($"seed {seed}, {series.TotalKilowattHours:0} kWh added: {bound:0.00} of {bill}"));
        }
    });

    private static double Added(CoupledCharges charges, double[] prices, MeteredSeries car)
    {
        double[] kwh = [.. car.MicroKilowattHours.ToArray().Select(u => u / (double)MeteredSeries.UnitsPerKilowattHour)];
        var costs = new double[charges.Periods];
        for (var m = 0; m < kwh.Length; m++)
        {
            // What is billed at each price inside an interval is rounded down to a millionth of a kWh.
            costs[charges.PeriodOf[m]] += (prices[m] * kwh[m]) - (kwh[m] > 0 ? 1e-6 : 0);
        }

        foreach (var use in charges.Uses)
        {
            costs[use.Period] += use.Cost(use.UsedKwh + use.Spans.Sum(s => s.Share * kwh[s.From..s.Until].Sum()));
        }

        foreach (var peak in charges.Peaks.Where(p => p.MeanOfDays is null))
        {
            costs[peak.Period] += peak.LeastCost(peak.Windows.Max(w => w.HouseKw + (kwh[w.From..w.Until].Sum() / peak.Hours)));
        }

        return costs.Select((cost, p) => charges.SlackOf[p] > 0 ? Math.Max(0, cost - charges.SlackOf[p]) : cost).Sum();
    }
}
