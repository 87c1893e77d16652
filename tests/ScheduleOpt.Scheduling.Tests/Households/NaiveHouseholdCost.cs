using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>The cost of a schedule minute by minute, straight from what each term says: slow, and with no code in common with the engine.</summary>
internal static class NaiveHouseholdCost
{
    /// <summary>The bill's difference and the carbon price. [currency]</summary>
    /// <param name="problem">The problem; its boundaries lie on whole minutes.</param>
    /// <param name="homeKw">Average power of all cars at home, by interval. [kW]</param>
    public static (double Bill, double Carbon) Of(HouseholdProblem problem, double[] homeKw)
    {
        var minutes = (int)(problem.Boundaries[^1] - problem.Boundaries[0]).TotalMinutes;
        var (net, net0, interval) = (new double[minutes], new double[minutes], new int[minutes]);
        for (int m = 0, i = 0; m < minutes; m++)
        {
            while (problem.Boundaries[i + 1] <= At(m))
            {
                i++;
            }

            interval[m] = i;
            net0[m] = problem.HouseKw[i] - problem.SolarKw[i];
            net[m] = net0[m] + homeKw[i];
        }

        double Import(double kw) => kw > 0 ? kw / 60 : 0;
        double Energy(Func<int, bool> counts)
        {
            var sum = 0.0;
            for (var m = 0; m < minutes; m++)
            {
                var i = interval[m];
                if (counts(m))
                {
                    sum += (problem.ImportPrice[i] * (Import(net[m]) - Import(net0[m]))) - (problem.ExportPrice[i] * (Import(-net[m]) - Import(-net0[m])));
                }
            }

            return sum;
        }

        double Use(IEnumerable<Interval> hours) => Enumerable.Range(0, minutes).Where(m => hours.Any(h => h.Contains(At(m)))).Sum(m => Import(net[m]) - Import(net0[m]));

        double Extra(PriceTerm term) => term switch
        {
            DemandTerm d => Peak(d),
            BlockTerm b => Blocks(b, (double)b.UsedKwh + Use(b.Hours)) - Blocks(b, (double)b.UsedKwh) - (Use(b.Hours) * (double)b.Blocks[b.ReachedBlock].PricePerKwh),
            BandTerm c => Inside(c, (double)c.UsedKwh + Use([c.BillingPeriod])) - Inside(c, (double)c.UsedKwh),
            _ => 0,
        };

        var bill = Energy(_ => true) + problem.Terms.Sum(Extra);
        foreach (var minimum in problem.Terms.OfType<MinimumTerm>())
        {
            var c = Energy(m => minimum.BillingPeriod.Contains(At(m))) + problem.Terms.Where(t => t.BillingPeriod == minimum.BillingPeriod).Sum(Extra);
            var room = (double)(minimum.Minimum - minimum.Counted);
            bill += (room > c ? room - c : 0) - (room > 0 ? room : 0);
        }

        var carbon = Enumerable.Range(0, minutes).Sum(m => problem.CarbonPrice[interval[m]] * (Import(net[m]) - Import(net0[m])));
        return (bill, carbon);

        Instant At(int minute) => problem.Boundaries[0] + Duration.FromMinutes(minute);

        double Peak(DemandTerm term)
        {
            var peak = (double)term.MeasuredKw;
            var length = (int)term.Averaging.TotalMinutes;
            for (var begin = -length + 1; begin < minutes; begin++)
            {
                var at = At(begin);
                var starts = term.Sliding ? begin >= 0 && problem.Boundaries.Contains(at) : at.ToUnixTimeSeconds() % (length * 60) == 0;
                var inHours = term.Hours.Any(h => h.Contains(at));
                if (starts && inHours && at + term.Averaging <= term.BillingPeriod.End)
                {
                    var inside = Enumerable.Range(begin, length).Where(m => m >= 0 && m < minutes).ToArray();
                    peak = Math.Max(peak, inside.Sum(m => net[m] > 0 ? net[m] : 0) / inside.Length);
                }
            }

            return Kilowatts(term, Math.Max(peak, (double)term.FloorKw)) - Kilowatts(term, Math.Max((double)term.MeasuredKw, (double)term.FloorKw));
        }
    }

    private static double Kilowatts(DemandTerm term, double kw)
    {
        double sum = 0, from = 0;
        foreach (var block in term.Blocks)
        {
            var to = block.UpToKw is { } limit ? Math.Min(kw, (double)limit) : kw;
            sum += to > from ? (to - from) * (double)block.PricePerKw : 0;
            from = Math.Max(from, to);
        }

        return sum;
    }

    private static double Blocks(BlockTerm term, double kwh)
    {
        double sum = 0, from = 0;
        foreach (var block in term.Blocks)
        {
            var to = block.WidthKwh is { } width ? from + (double)width : double.MaxValue;
            if (kwh <= to)
            {
                return term.WholeUse ? kwh * (double)block.PricePerKwh : sum + ((kwh - from) * (double)block.PricePerKwh);
            }

            sum += (to - from) * (double)block.PricePerKwh;
            from = to;
        }

        return sum;
    }

    private static double Inside(BandTerm term, double kwh) =>
        (term.OverKwh is { } over && kwh <= (double)over) || (term.UpToKwh is { } upTo && kwh > (double)upTo) ? 0 : (double)term.Amount;
}
