using ScheduleOpt.Scheduling.Windows;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Windows;

/// <summary>Every on-off pattern of a tiny night against the runnable schedule.</summary>
public class BruteForceTests
{
    private const int Intervals = 12;
    private const double NetKw = 7;
    private const double WallKw = 7.5;

    [Fact]
    public void RunnableSchedule_AgainstEveryPattern_IsCheapestWithFewestWindows()
    {
        var several = 0;
        for (var seed = 0; seed < 300; seed++)
        {
            var random = new Random(seed);
            var levels = new[] { 0.1, 0.2, 0.2003, 0.35 };
            var prices = Enumerable.Range(0, Intervals).Select(_ => levels[random.Next(levels.Length)]).ToArray();
            var needed = 1 + random.Next(Intervals - 1);
            var problem = Problems.OneNight(prices, requiredKwh: 10 + (NetKw * needed), initialKwh: 10, WallKw, NetKw);

            var least = Scheduler.Solve(problem);
            var windows = WindowPlanner.Plan(problem, least);
            var shares = WindowPlanner.Shares(problem, windows);
            var cost = Cost(prices, shares);

            var (cheapest, fewest) = BruteForce(prices, needed);
            var tolerance = Math.Max(WindowPlanner.GiveUpAtLeast, WindowPlanner.GiveUpShare * cheapest);
            Assert.True(Math.Abs(least.Cost - cheapest) < 1e-6, $"seed {seed}: LP {least.Cost}, brute force {cheapest}");
            Assert.True(cost <= cheapest + tolerance + 1e-6, $"seed {seed}: cost {cost}, brute force {cheapest}");
            Assert.True(windows.Count <= fewest, $"seed {seed}: {windows.Count} windows, brute force {fewest}, prices {string.Join(' ', prices)}");
            several += fewest > 1 ? 1 : 0;
        }

        Assert.True(several > 30, "Too few nights need more than one window: the test shows little.");
    }

    private static double Cost(double[] prices, double[] shares) => prices.Zip(shares, (p, s) => p * s * WallKw).Sum();

    private static (double Cheapest, int Fewest) BruteForce(double[] prices, int needed)
    {
        var patterns = Enumerable.Range(0, 1 << Intervals)
            .Where(p => int.PopCount(p) == needed)
            .Select(p => (Cost: Enumerable.Range(0, Intervals).Where(i => (p >> i & 1) == 1).Sum(i => prices[i] * WallKw), Windows: int.PopCount(p & ~(p << 1))))
            .ToArray();
        var cheapest = patterns.Min(p => p.Cost);
        var tolerance = Math.Max(WindowPlanner.GiveUpAtLeast, WindowPlanner.GiveUpShare * cheapest);
        return (cheapest, patterns.Where(p => p.Cost <= cheapest + tolerance).Min(p => p.Windows));
    }
}
