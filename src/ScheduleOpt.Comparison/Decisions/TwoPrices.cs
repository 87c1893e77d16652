using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>A cell's energy of the car as bought at two prices: the lowest of each billing period, and the mean of the others.</summary>
/// <remarks>Read from the lines of the two bills, with and without the car. Only for rate plans whose prices go by period alone: blocks and
/// hourly prices have no two prices. Where several layers of charges differ by period, the one with the largest gap is taken.</remarks>
/// <param name="Kwh">What the car takes. [kWh a year]</param>
/// <param name="OffPeakShare">The share of it bought at the lowest price, in [0, 1].</param>
/// <param name="OffPeak">The lowest price, mean over the year. [currency/kWh]</param>
/// <param name="OnPeak">The other prices, mean over the year. [currency/kWh]</param>
/// <param name="Fixed">What house and car cost beside it. [currency a year]</param>
internal sealed record TwoPrices(decimal Kwh, decimal OffPeakShare, decimal OffPeak, decimal OnPeak, decimal Fixed)
{
    private const decimal LeastKwh = 0.001m;

    /// <summary>The two prices of a cell; none where it has no two.</summary>
    public static TwoPrices? Of(YearCell cell)
    {
        if (cell.RatePlan.EnergyCharges.Any(c => c.HasBlocks || c.Hourly is not null))
        {
            return null;
        }

        return cell.RatePlan.EnergyCharges.Select(c => c.Layer).Distinct().Select(layer => OfLayer(cell, layer))
            .Where(p => p is not null && p.OnPeak > p.OffPeak).OrderByDescending(p => p!.OnPeak - p.OffPeak).FirstOrDefault();
    }

    private static TwoPrices? OfLayer(YearCell cell, string layer)
    {
        var (low, high) = (new Sum(), new Sum());
        for (var i = 0; i < cell.BillWithCar.Periods.Count; i++)
        {
            var with = Lines(cell.BillWithCar.Periods[i], layer);
            if (with.Length == 0)
            {
                continue;
            }

            var without = Lines(cell.BillWithoutCar.Periods[i], layer);
            var least = with.Min(l => l.Price);
            foreach (var price in with.Select(l => l.Price).Distinct())
            {
                var all = with.Where(l => l.Price == price).Sum(l => l.Quantity);
                (price == least ? low : high).Add(price, all, all - without.Where(l => l.Price == price).Sum(l => l.Quantity));
            }
        }

        var kwh = low.Car + high.Car;
        return kwh < LeastKwh || high.All < LeastKwh || low.All < LeastKwh
            ? null
            : new TwoPrices(kwh, low.Car / kwh, low.Mean, high.Mean, cell.WholeHouseCost - (low.Car * low.Mean) - (high.Car * high.Mean));
    }

    private static BillLine[] Lines(BillStatement statement, string layer) =>
        [.. statement.Lines.Where(l => l.Part == BillPart.EnergyCharge && l.Unit == "kWh" && (l.Layer ?? layer) == layer && !l.IsPercentage)];

    private sealed class Sum
    {
        private decimal cost;

        public decimal All { get; private set; }

        public decimal Car { get; private set; }

        public decimal Mean => cost / All;

        public void Add(decimal price, decimal all, decimal car)
        {
            All += all;
            Car += car;
            cost += price * all;
        }
    }
}
