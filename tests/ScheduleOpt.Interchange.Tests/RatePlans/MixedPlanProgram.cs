using System.Text.Json;
using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.Tariffs;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Interchange.Tests.RatePlans;

/// <summary>The last two months of a year as a mixed-integer programme of scipy's (HiGHS): blocks, prices of all the use, bands, and power as it is rounded, each with its integers.</summary>
/// <remarks>Nothing of the year's own search is in it: it has the intervals of the schedule, and the prices and terms of the plan.</remarks>
internal static class MixedPlanProgram
{
    private const int FirstMonth = 11;

    private const string Script = """
        import json, sys, numpy as np
        from scipy.optimize import milp, LinearConstraint, Bounds
        from scipy.sparse import coo_matrix
        q = json.load(sys.stdin)
        cost, low, high, whole, rows, lo, hi, data = [], [], [], [], [], [], [], []
        def var(c=0.0, l=0.0, h=np.inf, integer=0):
            cost.append(c); low.append(l); high.append(h); whole.append(integer)
            return len(cost) - 1
        def row(parts, l, h):
            r = len(lo); lo.append(l); hi.append(h)
            data.extend((r, v, a) for v, a in parts)
        n = len(q["price"])
        kwh = [w * h for w, h in zip(q["wall"], q["hours"])]
        x = [var(q["price"][i] * kwh[i], 0, 1) for i in range(n)]
        e = [var(0, q["lower"][b], q["upper"][b]) for b in range(n + 1)]
        row([(e[0], 1)], q["initial"], q["initial"])
        for i in range(n):
            row([(e[i + 1], 1), (e[i], -1), (x[i], -q["net"][i] * q["hours"][i])], -q["drive"][i], -q["drive"][i])
        for b, kwhs in q["wishes"]:
            row([(e[b], 1)], kwhs, np.inf)
        for u in q["uses"]:
            used, most = u["used"], u["used"] + u["most"]
            parts = [(x[i], s * kwh[i]) for i, s in u["hours"]]
            use, costs, one = [], [], []
            for a, b, fixed, slope in u["pieces"]:
                if b <= used - 1e-9 or a >= most: continue
                a, b = max(a, used), min(b, most)
                z = var(fixed - u["without"], 0, 1, 1); y = var(slope)
                row([(y, 1), (z, -a)], 0, np.inf); row([(y, 1), (z, -b)], -np.inf, 0)
                use.append((y, 1)); one.append((z, 1))
            row(one, 1, 1)
            row(use + [(v, -a) for v, a in parts], used, used)
        for p in q["peaks"]:
            top = var()
            if p["days"]:
                days = {}
                for w in p["windows"]:
                    d = days.setdefault(w["day"], var())
                    row([(d, 1)] + [(x[i], -kwh[i] / p["length"]) for i in w["hours"]], w["house"], np.inf)
                m = min(p["days"], len(days))
                t = var(0, -np.inf)
                over = []
                for d in days.values():
                    s = var(); over.append(s)
                    row([(s, 1), (d, -1), (t, 1)], 0, np.inf)
                row([(top, 1), (t, -1)] + [(s, -1.0 / m) for s in over], 0, np.inf)
            else:
                for w in p["windows"]:
                    row([(top, 1)] + [(x[i], -kwh[i] / p["length"]) for i in w["hours"]], w["house"], np.inf)
            billed = var(0, p["billed"])
            if p["step"] > 0:
                k = var(0, 0, np.inf, 1)
                row([(billed, 1), (k, -p["step"])], 0, 0)
                row([(billed, 1), (top, -1)], -p["away"], np.inf)
            else:
                row([(billed, 1), (top, -1)], 0, np.inf)
            c = var(1)
            for at, sofar, slope in p["lines"]:
                row([(c, 1), (billed, -slope)], sofar - slope * at - p["without"], np.inf)
        r, v, a = zip(*data)
        A = coo_matrix((a, (r, v)), shape=(len(lo), len(cost))).tocsr()
        best = milp(np.array(cost), constraints=LinearConstraint(A, lo, hi), bounds=Bounds(low, high), integrality=np.array(whole), options={"time_limit": 20, "mip_rel_gap": 1e-6})
        if best.x is None: print(json.dumps({"message": best.message})); sys.exit(0)
        print(json.dumps({"cost": best.fun, "shares": [float(best.x[i]) for i in x]}))
        """;

    public static string? Interpreter => PythonScript.InterpreterWith("scipy.optimize");

    /// <summary>The optimum.</summary>
    /// <param name="year">The year's intervals.</param>
    /// <param name="plan">The plan, its choices made.</param>
    /// <param name="prices">Its prices and terms.</param>
    /// <param name="meter">What is on the meter without the car; its intervals are an hour.</param>
    /// <returns>What charging costs by the programme, and what the car takes in each metering interval of the year. [currency, kWh]</returns>
    public static (double Cost, double[] Kwh) Solve(string python, ChargingProblem year, RatePlan plan, PriceSchedule prices, MeteredSeries meter)
    {
        var start = prices.Terms.Count == 0 ? year.Boundaries[0] : new LocalDate(2026, FirstMonth, 1).AtStartOfDayInZone(plan.Zone).ToInstant();
        var first = Array.FindIndex(year.Boundaries, b => b >= start);
        var count = year.Count - first;
        int[] meterOf = [.. Enumerable.Range(first, count).Select(i => (int)((year.Boundaries[i] - meter.Start) / meter.Interval))];
        double[] wall = [.. Enumerable.Range(first, count).Select(i => year.Place[i] == Place.Home && year.NetKw[i] > 0 ? year.WallKw[i] : 0)];
        var terms = prices.Terms.Where(t => t.BillingPeriod.Start >= start).ToArray();

        // Wishes that can't be met are none.
        var missed = Scheduler.Solve(year, SolverChoice.Glop);
        var asked = JsonSerializer.Serialize(new
        {
            price = year.Price[first..],
            hours = year.Hours[first..],
            wall,
            net = wall.Select((w, i) => w > 0 ? year.NetKw[first + i] : 0),
            drive = year.DriveKwh[first..],
            lower = year.LowerKwh[first..],
            upper = year.UpperKwh[first..].Select(u => Math.Min(u, year.UsableKwh)),
            initial = year.InitialKwh,
            wishes = year.Departures.Select((d, k) => new[] { d.Boundary - first, d.RequiredKwh - missed.TargetShortfallKwh[k] }).Where(w => w[0] >= 0)
                .Append([count, (year.FinalKwh ?? 0) - missed.FinalShortfallKwh]),
            uses = terms.Select(t => Use(t, meter, meterOf, wall)).OfType<object>(),
            peaks = terms.OfType<DemandTerm>().Where(d => d.Hours.Count > 0).Select(d => Peak(d, plan, meter, meterOf)),
        });
        using var answer = JsonDocument.Parse(PythonScript.Run(python, Script, asked));
        if (!answer.RootElement.TryGetProperty("cost", out var cost))
        {
            throw new InvalidOperationException(answer.RootElement.GetRawText());
        }

        var kwh = new double[meter.Count];
        foreach (var (share, i) in answer.RootElement.GetProperty("shares").EnumerateArray().Select((s, i) => (Math.Max(0, s.GetDouble()), i)))
        {
            kwh[meterOf[i]] += share * wall[i] * year.Hours[first + i];
        }

        return (cost.GetDouble(), kwh);
    }

    // Pieces of what a use costs beside the prices: from, until, at zero kWh, slope.
    private static object? Use(PriceTerm term, MeteredSeries meter, int[] meterOf, double[] wall)
    {
        var (hours, used, pieces) = term switch
        {
            BlockTerm b => (b.Hours, b.UsedKwh, BlockPieces(b).ToArray()),
            BandTerm b => ([b.BillingPeriod], b.UsedKwh, BandPieces(b).ToArray()),
            _ => ([], 0m, []),
        };
        if (pieces.Length == 0)
        {
            return null;
        }

        var shares = meterOf.Select(m => hours.Sum(h => Overlap(h, meter.Start + (meter.Interval * m), meter.Start + (meter.Interval * (m + 1))))).ToArray();
        var without = pieces.First(p => (double)used <= p[1] + 1e-9);
        return new
        {
            used,
            most = shares.Zip(wall, (s, w) => s * w).Sum(),
            hours = shares.Select((s, i) => new[] { i, s }).Where(s => s[1] > 0),
            pieces,
            without = without[2] + (without[3] * (double)used),
        };
    }

    private static IEnumerable<double[]> BlockPieces(BlockTerm term)
    {
        var (from, cost, reached) = (0.0, 0.0, (double)term.Blocks[term.ReachedBlock].PricePerKwh);
        foreach (var block in term.Blocks)
        {
            var (until, slope) = (from + ((double?)block.WidthKwh ?? 1e6), (double)block.PricePerKwh - reached);
            yield return [from, until, term.WholeUse ? 0 : cost - (slope * from), slope];
            cost += slope * (until - from);
            from = until;
        }
    }

    private static IEnumerable<double[]> BandPieces(BandTerm term)
    {
        var (over, upTo) = ((double?)term.OverKwh ?? 0, (double?)term.UpToKwh ?? 1e6);
        yield return [0, over, 0, 0];
        yield return [over, upTo, (double)term.Amount, 0];
        yield return [upTo, 2e6, 0, 0];
    }

    private static object Peak(DemandTerm term, RatePlan plan, MeteredSeries meter, int[] meterOf)
    {
        var charge = plan.DemandCharges.Single(c => c.Name == term.Name);
        var step = charge.KwDecimals == 6 ? 0 : Math.Pow(10, -charge.KwDecimals);
        var lines = new List<double[]>();
        var (from, sofar) = (0.0, 0.0);
        foreach (var block in term.Blocks)
        {
            lines.Add([from, sofar, (double)block.PricePerKw]);
            var until = (double?)block.UpToKw ?? 1e6;
            (sofar, from) = (sofar + ((until - from) * (double)block.PricePerKw), until);
        }

        return new
        {
            days = charge.MeanOfDailyHighest ? charge.HighestDays ?? 31 : 0,
            length = 1.0,
            billed = term.BilledKw,
            step,
            away = charge.KwRounding switch
            {
                Tariffs.Charges.KwRounding.Up => 0,
                Tariffs.Charges.KwRounding.Down => step,
                _ => step / 2,
            },
            lines,
            without = lines.Max(l => l[1] + (l[2] * ((double)term.BilledKw - l[0]))),
            windows = Enumerable.Range(0, meter.Count).Where(m => term.Hours.Any(h => h.Contains(meter.Start + (meter.Interval * m)))).Select(m => new
            {
                day = (meter.Start + (meter.Interval * m)).InZone(plan.Zone).DayOfYear,
                house = meter.MicroKilowattHours[m] / (double)MeteredSeries.UnitsPerKilowattHour,
                hours = Enumerable.Range(0, meterOf.Length).Where(i => meterOf[i] == m),
            }),
        };
    }

    private static double Overlap(Interval hours, Instant from, Instant until) =>
        Math.Max(0, (Instant.Min(hours.End, until) - Instant.Max(hours.Start, from)) / (until - from));
}
