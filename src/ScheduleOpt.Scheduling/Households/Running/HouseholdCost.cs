using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>What a schedule costs, by the definition of each term; knows nothing of the programme.</summary>
internal sealed class HouseholdCost
{
    private readonly HouseholdProblem problem;
    private readonly List<(DemandTerm Term, List<DemandWindow> Windows)> demands;

    public HouseholdCost(HouseholdProblem problem)
    {
        this.problem = problem;
        demands = [.. problem.Terms.OfType<DemandTerm>().Select(t => (t, DemandWindows.Of(t, problem.Boundaries)))];
    }

    /// <summary>The difference to the bill without charging, and the carbon price on top. [currency]</summary>
    /// <param name="homeKw">Average power of all cars at home together, by interval. [kW]</param>
    public (double Bill, double Carbon) AtHome(double[] homeKw)
    {
        var n = problem.Count;
        var (import, import0, bill) = (new double[n], new double[n], new double[n]);
        var carbon = 0.0;
        for (var i = 0; i < n; i++)
        {
            var without = problem.HouseKw[i] - problem.SolarKw[i];
            var with = without + homeKw[i];
            (import[i], import0[i]) = (Math.Max(0, with), Math.Max(0, without));
            var exportLess = Math.Max(0, -without) - Math.Max(0, -with);
            bill[i] = problem.Hours[i] * ((problem.ImportPrice[i] * (import[i] - import0[i])) + (problem.ExportPrice[i] * exportLess));
            carbon += problem.Hours[i] * problem.CarbonPrice[i] * (import[i] - import0[i]);
        }

        var byPeriod = new List<(Interval Period, double Extra)>();
        foreach (var (term, windows) in demands)
        {
            byPeriod.Add((term.BillingPeriod, Demand(term, windows, import)));
        }

        foreach (var term in problem.Terms)
        {
            if (term is BlockTerm block)
            {
                byPeriod.Add((term.BillingPeriod, Block(block, Use(block.Hours, import, import0))));
            }
            else if (term is BandTerm band)
            {
                byPeriod.Add((term.BillingPeriod, Band(band, Use([term.BillingPeriod], import, import0))));
            }
        }

        foreach (var term in problem.Terms.OfType<MinimumTerm>())
        {
            var extra = byPeriod.Where(t => t.Period == term.BillingPeriod).Sum(t => t.Extra);
            for (var i = 0; i < n; i++)
            {
                extra += term.BillingPeriod.Contains(problem.Boundaries[i]) ? bill[i] : 0;
            }

            var missing = (double)(term.Minimum - term.Counted);
            byPeriod.Add((term.BillingPeriod, Math.Max(0, missing - extra) - Math.Max(0, missing)));
        }

        return (bill.Sum() + byPeriod.Sum(t => t.Extra), carbon);
    }

    private static double Demand(DemandTerm term, List<DemandWindow> windows, double[] import)
    {
        var peak = (double)term.MeasuredKw;
        foreach (var window in windows)
        {
            var energy = 0.0;
            for (var k = 0; k < window.Hours.Length; k++)
            {
                energy += window.Hours[k] * import[window.First + k];
            }

            peak = Math.Max(peak, energy / window.Total);
        }

        var floor = (double)term.FloorKw;
        return Price(Math.Max(peak, floor)) - Price(Math.Max((double)term.MeasuredKw, floor));

        double Price(double kw)
        {
            var (sum, below) = (0.0, 0.0);
            foreach (var block in term.Blocks)
            {
                var upTo = (double?)block.UpToKw ?? double.PositiveInfinity;
                sum += Math.Max(0, Math.Min(kw, upTo) - below) * (double)block.PricePerKw;
                below = upTo;
            }

            return sum;
        }
    }

    private static double Block(BlockTerm term, double use)
    {
        var used = (double)term.UsedKwh;
        var counted = (double)term.Blocks[term.ReachedBlock].PricePerKwh * use;
        return Price(used + use) - Price(used) - counted;

        double Price(double kwh)
        {
            var (sum, below) = (0.0, 0.0);
            foreach (var block in term.Blocks)
            {
                var upTo = block.WidthKwh is { } width ? below + (double)width : double.PositiveInfinity;
                if (term.WholeUse && kwh <= upTo)
                {
                    return kwh * (double)block.PricePerKwh;
                }

                sum += Math.Max(0, Math.Min(kwh, upTo) - below) * (double)block.PricePerKwh;
                below = upTo;
            }

            return sum;
        }
    }

    private static double Band(BandTerm term, double use)
    {
        return Holds((double)term.UsedKwh + use) - Holds((double)term.UsedKwh);

        double Holds(double kwh) =>
            kwh > ((double?)term.OverKwh ?? double.NegativeInfinity) && kwh <= ((double?)term.UpToKwh ?? double.PositiveInfinity)
                ? (double)term.Amount
                : 0;
    }

    private double Use(IReadOnlyList<Interval> hours, double[] import, double[] import0)
    {
        var (sum, at) = (0.0, 0);
        for (var i = 0; i < import.Length; i++)
        {
            var start = problem.Boundaries[i];
            while (at < hours.Count && hours[at].HasEnd && hours[at].End <= start)
            {
                at++;
            }

            if (at < hours.Count && hours[at].Contains(start))
            {
                sum += problem.Hours[i] * (import[i] - import0[i]);
            }
        }

        return sum;
    }
}
