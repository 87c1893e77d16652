using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>What one more stored kWh would be worth in each interval of a solved problem: the duals of the balance. [currency/kWh]</summary>
/// <remarks>
/// Where nothing binds between two intervals their values are equal; where the lower bound or a wish binds the earlier is no less, where the upper one binds no
/// more. An interval that charges in full is worth no less than its cost, one that does not charge no more, one that charges in part just that. One pass forward
/// finds the range of each, one backward chooses in it. Any choice serves: bounds made of it hold whatever it is.
/// </remarks>
internal static class MarginalValues
{
    private const double SameKwh = 1e-6;
    private const double SameShare = 1e-9;

    // Where something is short energy is worth any price; this many times the dearest stands for it.
    private const double Scarce = 1000;

    /// <summary>The values.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="best">Its least-cost schedule.</param>
    /// <param name="highest">Whether the highest values are chosen where several are right; otherwise the lowest.</param>
    public static double[] Of(ChargingProblem problem, LeastCost best, bool highest)
    {
        var n = problem.Count;
        var (low, high) = (new double[n], new double[n]);
        var bindings = Bindings(problem, best);
        var (from, until, dearest) = (double.NegativeInfinity, double.PositiveInfinity, 0.0);
        for (var i = 0; i < n; i++)
        {
            if (problem.NetKw[i] > 0 && problem.Place[i] != Place.Road)
            {
                var cost = problem.Price[i] * problem.WallKw[i] / problem.NetKw[i];
                dearest = Math.Max(dearest, cost);
                if (best.Shares[i] > SameShare)
                {
                    from = Math.Max(from, cost);
                    until = Math.Max(until, from);
                }

                if (best.Shares[i] < 1 - SameShare)
                {
                    until = Math.Min(until, cost);
                    from = Math.Min(from, until);
                }
            }

            (low[i], high[i]) = (from, until);
            if (bindings[i + 1].Low)
            {
                from = double.NegativeInfinity;
            }

            if (bindings[i + 1].High)
            {
                until = double.PositiveInfinity;
            }
        }

        var value = 0.0;
        for (var i = n - 1; i >= 0; i--)
        {
            // At the end, energy beyond what is asked is worth nothing.
            var (atLow, atHigh) = i == n - 1 ? (bindings[n].Low, false) : bindings[i + 1];
            var least = atLow && !atHigh ? Math.Max(low[i], value) : low[i];
            var most = atHigh && !atLow ? Math.Min(high[i], value) : high[i];
            value = !atLow && !atHigh ? Math.Clamp(value, low[i], high[i])
                : highest ? (double.IsFinite(most) ? most : Math.Max(Scarce * dearest, least))
                : double.IsFinite(least) ? least : Math.Min(most, 0);
            value = Math.Clamp(value, low[i], high[i]);
            low[i] = value;
        }

        return low;
    }

    private static (bool Low, bool High)[] Bindings(ChargingProblem problem, LeastCost best)
    {
        var bindings = new (bool Low, bool High)[problem.Count + 1];
        for (var b = 0; b < bindings.Length; b++)
        {
            bindings[b] = (best.StoredKwh[b] <= problem.LowerKwh[b] + SameKwh, best.StoredKwh[b] >= problem.UpperKwh[b] - SameKwh);
        }

        for (var k = 0; k < problem.Departures.Length; k++)
        {
            var b = problem.Departures[k].Boundary;
            bindings[b].Low |= best.StoredKwh[b] <= problem.Departures[k].RequiredKwh - best.TargetShortfallKwh[k] + SameKwh;
        }

        bindings[^1].Low |= best.StoredKwh[^1] <= (problem.FinalKwh ?? 0) - best.FinalShortfallKwh + SameKwh;
        return bindings;
    }
}
