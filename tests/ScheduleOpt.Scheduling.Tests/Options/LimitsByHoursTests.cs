using NodaTime;
using ScheduleOpt.Scheduling.Windows;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Options;

/// <summary>Hours without charging and limits of the current by hours, in the problem, in the windows and in the check.</summary>
public class LimitsByHoursTests
{
    [Fact]
    public void CurrentLimit_LowersThePowerInItsHoursAlone()
    {
        // 16 A at 240 V: 3.84 kW; 5 A is below the car's minimum of 6 A: none.
        var problem = ChargingProblemBuilder.Build(Nights.Plain() with
        {
            CurrentLimits = [new(Hours(23, 24), 16), new(Hours(25, 26), 5), new(Hours(27, 28), 40)],
        });
        Assert.Equal((32, Nights.FullKw), AtHour(problem, 22));
        Assert.Equal((16, 3.84), AtHour(problem, 23));
        Assert.Equal((0, 0), AtHour(problem, 25));
        Assert.Equal((32, Nights.FullKw), AtHour(problem, 27));
        Assert.Equal((0, 0), AtHour(problem, 31));
    }

    [Fact]
    public void EdgesInsideAGridStep_CutTheGrid()
    {
        var from = Nights.At(23, 7) + Duration.FromSeconds(11);
        var problem = ChargingProblemBuilder.Build(Nights.Plain() with { NoCharging = [new(from, Nights.At(24))], Cuts = [Nights.At(20, 1)] });
        Assert.Contains(from, problem.Boundaries);
        Assert.Contains(Nights.At(20, 1), problem.Boundaries);
    }

    [Fact]
    public void HoursWithoutCharging_PartTheWindow()
    {
        // 18 kWh need 2.6003 h at 0.10; without charging from 00:00Z to 04:00Z one hour is left before and one after: 2 windows, the rest at 0.30.
        var question = Nights.Plain() with { NoCharging = [Hours(24, 28)] };
        var problem = ChargingProblemBuilder.Build(question);
        var least = Scheduler.Solve(problem, Solvers.SolverChoice.Direct, equalCost: EqualCost.ChargeLate);
        var tonight = WindowPlanner.Plan(problem, least).Where(w => w.End <= Nights.At(30)).ToArray();
        Assert.Equal(2, tonight.Length);
        Assert.All(tonight, w => Assert.True(w.End <= Nights.At(24) || w.Start >= Nights.At(28)));
        Assert.Equal(18 / Nights.FullNetKw, tonight.Sum(w => w.Hours), 3);
        Assert.Equal((2 * 0.10) + (((18 / Nights.FullNetKw) - 2) * 0.30), tonight.Sum(w => Cost(problem, w)) / Nights.FullKw, 3);
    }

    [Fact]
    public void RandomLimits_AreHeldByEveryWindow()
    {
        var kinks = 0;
        for (var seed = 0; seed < 100; seed++)
        {
            var question = WithLimits(RandomCases.Case(seed), new Random(seed));
            var problem = ChargingProblemBuilder.Build(question);
            var least = Scheduler.Solve(problem);
            var windows = WindowPlanner.Plan(problem, least);
            foreach (var window in windows)
            {
                for (var i = Array.FindIndex(problem.Boundaries, b => b > window.Start) - 1; i < problem.Count && problem.Boundaries[i] < window.End; i++)
                {
                    var inside = Instant.Min(window.End, problem.Boundaries[i + 1]) - Instant.Max(window.Start, problem.Boundaries[i]);
                    Assert.False(inside > Duration.FromSeconds(1) && problem.NetKw[i] <= 0, $"seed {seed}: a window at {problem.Boundaries[i]} stores nothing");
                    kinks += inside > Duration.Zero && i > 0 && problem.MostA[i] != problem.MostA[i - 1] && problem.MostA[i - 1] > 0 ? 1 : 0;
                }
            }

            // Windows store what the optimum stores, but for whole seconds.
            var replay = Replay.Run(problem, ShareOf(problem, least, windows), least.TripShortfallKwh);
            var slack = 0.02 + (2 * windows.Count * problem.NetKw.Max() / 3600);
            var room = problem.UsableKwh * 0.9;
            Assert.True(least.StoredKwh.Max() > room || Math.Abs(replay.StoredKwh[^1] - least.StoredKwh[^1]) < slack, $"seed {seed}");
            Assert.Empty(ScheduleCheck.Findings(problem, ScheduleCheckTests.Claim(question, problem, least)));
        }

        Assert.True(kinks > 10, $"only {kinks} windows met a change of current");
    }

    internal static ChargingCase WithLimits(ChargingCase question, Random random)
    {
        var (quiet, limits) = (new List<Interval>(), new List<CurrentLimit>());
        for (var day = 0; day < 7; day++)
        {
            var from = question.Start + Duration.FromMinutes((day * 1440) + random.Next(1000));
            if (random.Next(2) == 0)
            {
                quiet.Add(new Interval(from, from + Duration.FromMinutes(1 + random.Next(300))));
            }

            var limited = from + Duration.FromMinutes(random.Next(400));
            limits.Add(new(new Interval(limited, limited + Duration.FromMinutes(1 + random.Next(400))), 4 + (20 * random.NextDouble())));
        }

        return question with { NoCharging = quiet, CurrentLimits = limits };
    }

    private static double[] ShareOf(ChargingProblem problem, LeastCost least, IReadOnlyList<ChargingWindow> windows)
    {
        var shares = WindowPlanner.Shares(problem, windows);
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = problem.Place[i] == Place.Stop ? least.Shares[i] : shares[i];
        }

        return shares;
    }

    private static double Cost(ChargingProblem problem, ChargingWindow window) =>
        WindowPlanner.Shares(problem, [window]).Select((s, i) => s * problem.Hours[i] * problem.WallKw[i] * problem.Price[i]).Sum();

    private static Interval Hours(int from, int until) => new(Nights.At(from), Nights.At(until));

    private static (double, double) AtHour(ChargingProblem problem, int hour)
    {
        var i = Array.IndexOf(problem.Boundaries, Nights.At(hour));
        return (problem.MostA[i], Math.Round(problem.WallKw[i], 9));
    }
}
