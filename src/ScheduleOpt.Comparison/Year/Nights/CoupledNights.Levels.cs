using ScheduleOpt.Comparison.Year.Coupled;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Comparison.Year.Nights;

/// <content>The search of one night's levels of power.</content>
internal sealed partial class CoupledNights
{
    /// <summary>The search of one night's levels.</summary>
    private sealed class LevelSearch
    {
        private const int Steps = 6;
        private const double SameKw = 0.01;
        private const double SameKwh = 1e-6;
        private static readonly double Golden = (Math.Sqrt(5) - 1) / 2;

        private readonly ChargingProblem problem;
        private readonly ShortfallOrder order;
        private readonly double[] house;
        private readonly int[][] windows;
        private readonly double[] low;
        private readonly double[] level;

        public LevelSearch(CoupledNights nights, NightForecast night, ChargingProblem problem, ShortfallOrder order)
        {
            (this.problem, this.order) = (problem, order);
            (house, windows) = (nights.ExpectedHouse(night), nights.Windows(night));
            (low, level, Price) = (new double[windows.Length], new double[windows.Length], new double[windows.Length]);
            Array.Fill(level, double.PositiveInfinity);
            for (var k = 0; k < low.Length; k++)
            {
                if (windows[k].Length > 0)
                {
                    var charge = nights.charges.Peaks[k];
                    low[k] = Math.Max(nights.peakKw[k], windows[k].Max(i => house[i]));
                    Price[k] = nights.FactorOf(night, charge.Period) * charge.PriceAt(low[k]) * Math.Sqrt(nights.ShareOfPeriod(night, charge.Period));
                }
            }

            Best = Solved();
        }

        /// <summary>Power expected of the house in each interval of the night. [kW]</summary>
        public double[] House => house;

        /// <summary>For each charge the intervals of the night in its hours.</summary>
        public int[][] Windows => windows;

        /// <summary>What the next kW of each charge costs the days that the night sees. [currency/kW]</summary>
        public double[] Price { get; }

        /// <summary>The best plan so far.</summary>
        public CoupledPlan Best { get; private set; }

        /// <summary>Whether the best plan has a new peak for a charge.</summary>
        public bool IsOpen(int k) => windows[k].Length > 0 && Price[k] > 0 && PeakOf(k, Best) > low[k] + SameKw;

        /// <summary>Golden section along one level: cost is convex in it, and what is left short comes before it.</summary>
        public CoupledPlan Along(int k)
        {
            var (kept, least) = (level[k], level[k]);
            var (a, b) = (low[k], Math.Max(low[k], PeakOf(k, Best)));
            Try(low[k]);
            var (atLeft, atRight) = (b - (Golden * (b - a)), a + (Golden * (b - a)));
            var (left, right) = (Try(atLeft), Try(atRight));
            for (var step = 0; step < Steps && b - a > SameKw; step++)
            {
                if (IsBetter(left, right))
                {
                    (b, atRight, right) = (atRight, atLeft, left);
                    atLeft = b - (Golden * (b - a));
                    left = Try(atLeft);
                }
                else
                {
                    (a, atLeft, left) = (atLeft, atRight, right);
                    atRight = a + (Golden * (b - a));
                    right = Try(atRight);
                }
            }

            level[k] = least;
            return Best;

            CoupledPlan Try(double kw)
            {
                level[k] = kw;
                var plan = Solved();
                if (IsBetter(plan, Best))
                {
                    (Best, least) = (plan, kw);
                }

                level[k] = kept;
                return plan;
            }
        }

        /// <summary>The most share of each interval under the peaks of the best plan: what is made up for later keeps them too.</summary>
        public double[] Kept()
        {
            for (var k = 0; k < level.Length; k++)
            {
                level[k] = windows[k].Length > 0 ? Math.Max(low[k], PeakOf(k, Best)) : double.PositiveInfinity;
            }

            return Most() ?? [.. problem.WallKw.Select(_ => 1.0)];
        }

        private static bool IsBetter(CoupledPlan a, CoupledPlan b)
        {
            var (shortA, shortB) = (Short(a.Best), Short(b.Best));
            return Math.Abs(shortA - shortB) > SameKwh ? shortA < shortB : a.Cost < b.Cost;

            static double Short(LeastCost best) => best.TripShortfallKwh.Sum() + best.TargetShortfallKwh.Sum() + best.FinalShortfallKwh;
        }

        private double[]? Most()
        {
            double[]? most = null;
            for (var k = 0; k < level.Length; k++)
            {
                if (!double.IsFinite(level[k]))
                {
                    continue;
                }

                if (most is null)
                {
                    most = new double[problem.Count];
                    Array.Fill(most, 1);
                }

                foreach (var i in windows[k])
                {
                    most[i] = Math.Min(most[i], problem.WallKw[i] > 0 ? Math.Clamp((level[k] - house[i]) / problem.WallKw[i], 0, 1) : 1);
                }
            }

            return most;
        }

        private CoupledPlan Solved()
        {
            var most = Most();
            var held = most is null ? problem : problem with { WallKw = Times(problem.WallKw, most), NetKw = Times(problem.NetKw, most) };
            var plan = new CoupledPlan(Scheduler.Solve(held, SolverChoice.Direct, order), most, 0) { Solved = held };
            var cost = plan.Best.Objective;
            for (var k = 0; k < low.Length; k++)
            {
                cost += windows[k].Length > 0 ? Price[k] * Math.Max(0, PeakOf(k, plan) - low[k]) : 0;
            }

            return plan with { Cost = cost };
        }

        private static double[] Times(double[] values, double[] shares)
        {
            var times = new double[values.Length];
            for (var i = 0; i < times.Length; i++)
            {
                times[i] = values[i] * shares[i];
            }

            return times;
        }

        private double PeakOf(int k, CoupledPlan plan)
        {
            var peak = 0.0;
            foreach (var i in windows[k])
            {
                peak = Math.Max(peak, house[i] + (plan.Best.Shares[i] * plan.Solved.WallKw[i]));
            }

            return peak;
        }
    }
}
