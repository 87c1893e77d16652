using NodaTime;
using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Comparison.Tests.Year;

/// <summary>What blocks cost, and the bound of it where cost is not convex: against every use tried one by one.</summary>
public sealed class UseHullTests
{
    private static readonly Interval January = new(Instant.FromUtc(2026, 1, 1, 0, 0), Instant.FromUtc(2026, 2, 1, 0, 0));

    // Rising, falling, and mixed; ordinary and of the whole use.
    public static TheoryData<double, double, double, bool, double> Cases()
    {
        var cases = new TheoryData<double, double, double, bool, double>();
        foreach (var isWhole in new[] { false, true })
        {
            foreach (var used in new[] { 0.0, 150, 420 })
            {
                cases.Add(0.10, 0.20, 0.30, isWhole, used);
                cases.Add(0.30, 0.20, 0.10, isWhole, used);
                cases.Add(0.10, 0.30, 0.20, isWhole, used);
                cases.Add(0.30, 0.10, 0.20, isWhole, used);
            }
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Least_AnyPrice_IsNoMoreThanAnyUseCosts(double first, double second, double third, bool isWhole, double used)
    {
        double[] prices = [first, second, third];
        var reached = used < 200 ? 0 : used < 400 ? 1 : 2;
        PriceBlock[] blocks = [new(200, (decimal)first), new(200, (decimal)second), new(null, (decimal)third)];
        var term = new BlockTerm("any", January, false, [January], (decimal)used, blocks, reached, isWhole);
        var charge = BlockCharge.Of(term, 0, [new MeterSpan(0, 1)])!;
        var hull = new UseHull(charge, 0, 2000);

        foreach (var price in new[] { -0.25, -0.1, -0.05, 0, 0.05, 0.1, 0.15, 0.25 })
        {
            var least = hull.Least(price);
            var tried = double.PositiveInfinity;
            for (var kwh = 0; kwh <= 2000; kwh++)
            {
                var more = Billed(used + kwh) - Billed(used) - (prices[reached] * kwh);
                Assert.Equal(more, charge.Cost(used + kwh), 1e-9);
                tried = Math.Min(tried, more - (price * kwh));
            }

            // Just above a limit a price of all the use may fall: there whole kWh miss the lowest by less than one kWh is worth.
            Assert.True(least <= tried + 1e-9, $"{least} above {tried}");
            Assert.True(least >= tried - 1, $"{least} far below {tried}");
        }

        double Billed(double kwh) => isWhole
            ? kwh * (kwh <= 200 ? first : kwh <= 400 ? second : third)
            : (Math.Min(kwh, 200) * first) + (Math.Clamp(kwh - 200, 0, 200) * second) + (Math.Max(0, kwh - 400) * third);
    }
}
