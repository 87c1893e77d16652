using NodaTime;
using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>The windows of one stay that store what is wanted at the least cost, or as much of it as can be, beside powers that others have: the rules of running kept, by dynamic programming.</summary>
/// <remarks>A stay is a way through its boundaries, off or on, one layer for each window begun. Of two ways to the same place the one with more stored for less goes on, by a value of a kWh that is
/// raised until enough is stored. A window that goes on as long as the car can has ways of its own: at no boundary more is stored than lets the car stay on. So it finds the most that can be
/// stored, but where a full battery forces a car off in between.</remarks>
internal sealed class BestStay
{
    // Less is none. [kWh]
    private const double Nothing = 1e-6;

    // Of the range of values of a kWh, by their logarithm: to 1.4 %.
    private const int Halvings = 10;

    // Bounds before energy, energy before cost: how many times as much a kWh below a bound weighs as one that is wanted, and that at most as the dearest hour.
    private const double BelowWeight = 1000;
    private const double MostValue = 1000;

    private readonly HouseholdModel model;
    private readonly CarPower car;
    private readonly RunningRules rules;
    private readonly int first;
    private readonly int end;
    private readonly double wantedKwh;
    private readonly double[] kw;
    private readonly double[] price;
    private readonly bool[] shared;
    private readonly double fee;
    private readonly double[] room;
    private readonly double[] roomToEnd;
    private readonly int[] runEnd;
    private readonly double scale;

    // By layer and boundary.
    private readonly Way?[,] off;
    private readonly Way?[,] on;
    private readonly Way?[,] toEnd;
    private double value;
    private int steps;

    private BestStay(HouseholdModel model, int c, (int First, int End) stay, double wantedKwh, double[] kw, double[] price, bool[] shared, double fee)
    {
        (this.model, car, rules) = (model, model.Cars[c], model.Cars[c].Car.Rules);
        (first, end) = stay;
        (this.wantedKwh, this.kw, this.price, this.shared, this.fee) = (wantedKwh, kw, price, shared, fee);
        scale = Math.Max(1e-6, price.Max(Math.Abs));
        room = car.RoomKwh[first..(end + 1)];
        roomToEnd = [.. room];
        runEnd = new int[end - first];
        for (var i = end - 1; i >= first; i--)
        {
            var least = Math.Min(kw[i - first], car.LeastKw[i]);
            runEnd[i - first] = least <= 0 ? i : i + 1 < end && kw[i + 1 - first] > 0 ? runEnd[i + 1 - first] : i + 1;
            roomToEnd[i - first] = least > 0 ? Math.Min(room[i - first], roomToEnd[i + 1 - first] - Math.Max(0, Net(i, least)) + car.Car.Problem.DriveKwh[i]) : room[i - first];
        }

        var layers = (rules.MostWindows ?? 0) + 1;
        (off, on, toEnd) = (new Way?[layers, end - first + 1], new Way?[layers, end - first + 1], new Way?[layers, end - first + 1]);
    }

    /// <summary>Plans a stay anew.</summary>
    /// <param name="model">The household.</param>
    /// <param name="powers">Of all cars; the stay is written into it.</param>
    /// <param name="c">The car.</param>
    /// <param name="stay">The stay.</param>
    /// <param name="storedKwh">What is stored when it begins. [kWh]</param>
    /// <param name="wantedKwh">What should be stored when it ends. [kWh]</param>
    /// <param name="keepsKw">What each other car keeps in an interval, of that which it takes now. [kW, wall]</param>
    /// <returns>The steps that were looked at.</returns>
    public static int Plan(HouseholdModel model, HouseholdPowers powers, int c, (int First, int End) stay, double storedKwh, double wantedKwh, Func<int, int, double> keepsKw)
    {
        var n = stay.End - stay.First;
        var (kw, price, shared) = (new double[n], new double[n], new bool[n]);
        for (var k = 0; k < n; k++)
        {
            var i = stay.First + k;
            kw[k] = PowerLeft.Kw(model, c, i, other => keepsKw(other, i));
            price[k] = kw[k] > 0 ? CheapestBlock.CostAnHour(model, i, kw[k]) : 0;
            shared[k] = model.Limits.Any(l => l.Cars.Contains(c) && !l.IsSlack(model.Cars, i) && l.Cars.Any(o => o != c && keepsKw(o, i) > 0));
        }

        // Taking what others have comes after everything that is free, and at once rather than here and there.
        var (taking, fee) = (10 * Math.Max(1e-6, price.Max(Math.Abs)), 0.0);
        for (var k = 0; k < n; k++)
        {
            var i = stay.First + k;
            var takes = kw[k] > 0 ? 1 - (PowerLeft.Kw(model, c, i, other => PowerLeft.Level(model, powers, other, i)) / kw[k]) : 0;
            price[k] += taking * takes;
            fee = takes > 0 ? taking : fee;
        }

        Array.Clear(powers.Share[c], stay.First, n);
        Array.Clear(powers.WallKw[c], stay.First, n);
        var best = new BestStay(model, c, stay, wantedKwh, kw, price, shared, fee);
        for (var step = best.Best(storedKwh).Last; step is not null; step = step.Before)
        {
            (powers.Share[c][step.Interval], powers.WallKw[c][step.Interval]) = (step.Share, step.Share * step.Kw);
        }

        return best.steps;
    }

    /// <summary>The way with the least value of a kWh by which enough is stored.</summary>
    private Way Best(double storedKwh)
    {
        var (low, high) = (scale / MostValue, scale * MostValue);
        var best = Best(storedKwh, high);
        for (var h = 0; h < Halvings && best.Kwh >= wantedKwh - Nothing; h++)
        {
            var middle = Math.Sqrt(low * high);
            var less = Best(storedKwh, middle);
            (low, high) = less.Kwh >= wantedKwh - Nothing ? (low, middle) : (middle, high);
            best = less.Kwh >= wantedKwh - Nothing ? less : best;
        }

        return best;
    }

    private Way Best(double storedKwh, double valuePerKwh)
    {
        value = valuePerKwh;
        Array.Clear(off);
        Array.Clear(on);
        Array.Clear(toEnd);
        off[0, 0] = new(storedKwh, 0, null);
        for (var b = first; b < end; b++)
        {
            for (var layer = 0; layer < off.GetLength(0); layer++)
            {
                if (off[layer, b - first] is { } pausing)
                {
                    Offer(off, layer, b + 1, Off(pausing, b, b + 1));
                    Begin(pausing, b, rules.MostWindows is null ? layer : layer + 1);
                }

                if (on[layer, b - first] is { } charging)
                {
                    End(charging, b, layer);
                    GoOn(charging, b, layer, mayEnd: true);
                }

                if (toEnd[layer, b - first] is { } staying)
                {
                    Stay(staying, b, layer);
                }
            }
        }

        Way? best = null;
        foreach (var ways in new[] { off, on, toEnd })
        {
            for (var layer = 0; layer < ways.GetLength(0); layer++)
            {
                best = Better(best, ways[layer, end - first]);
            }
        }

        return best!;
    }

    private void Offer(Way?[,] ways, int layer, int boundary, Way way) => ways[layer, boundary - first] = Better(ways[layer, boundary - first], way);

    private Way? Better(Way? one, Way? other) => one is null || (other is not null && Score(other) > Score(one) + 1e-12) ? other : one;

    private double Score(Way way) => (value * Math.Min(way.Kwh, wantedKwh)) - way.Cost;

    private void Begin(Way before, int b, int layer)
    {
        if (layer >= off.GetLength(0) || kw[b - first] <= 0)
        {
            return;
        }

        before = before with { Cost = before.Cost + fee };

        // One that ends with the stay may be short.
        if ((Whole(b, before.Kwh, roomToEnd) is { Share: > 0 } step ? step : StartInPart(b, before.Kwh)) is { Share: > 0 } begun
            && (runEnd[b - first] == end || Since(b, runEnd[b - first]) >= rules.LeastOn))
        {
            Offer(toEnd, layer, b + 1, After(before, b, begun) with { Start = b });
        }

        // On until the least length has passed or the stay ends.
        Way? way = before;
        for (var i = b; way is not null && i < end && (i == b || Since(b, i) < rules.LeastOn); i++)
        {
            way = GoOn(way, i, layer, mayEnd: i == b && rules.LeastOn <= Duration.Zero, mayStop: i + 1 == end || Since(b, i + 1) >= rules.LeastOn);
        }
    }

    private void Stay(Way way, int b, int layer)
    {
        if (kw[b - first] <= 0)
        {
            End(way, b, layer);
        }
        else if (Whole(b, way.Kwh, roomToEnd) is { Share: > 0 } step)
        {
            Offer(toEnd, layer, b + 1, After(way, b, step) with { Start = way.Start });
        }

        // At less current than the last interval has room for it may store too little.
        if (runEnd[b - first] == b + 1 && Since(way.Start, b) >= rules.LeastOn && EndInPart(b, way.Kwh) is { Share: > 0 } part)
        {
            End(After(way, b, part), b + 1, layer);
        }
    }

    private Way? GoOn(Way way, int i, int layer, bool mayEnd, bool mayStop = true)
    {
        Way? next = Whole(i, way.Kwh, room) is { Share: > 0 } step ? After(way, i, step) : null;
        if (next is not null && mayStop)
        {
            Offer(on, layer, i + 1, next);
        }

        if (mayEnd && EndInPart(i, way.Kwh) is { Share: > 0 } part)
        {
            End(After(way, i, part), i + 1, layer);
        }

        return next;
    }

    /// <summary>Off until the least pause has passed, an interval at least.</summary>
    private void End(Way way, int b, int layer)
    {
        var until = Math.Min(end, b + 1);
        while (until < end && Since(b, until) < rules.LeastOff)
        {
            until++;
        }

        Offer(off, layer, until, Off(way, b, until));
    }

    private Way Off(Way way, int from, int until)
    {
        steps++;
        var (stored, cost) = (way.Kwh, way.Cost);
        for (var i = from; i < until; i++)
        {
            stored -= car.Car.Problem.DriveKwh[i];
            cost += Below(i + 1, stored);
        }

        return way with { Kwh = stored, Cost = cost };
    }

    private Way After(Way way, int i, (double Share, double Kw) step)
    {
        steps++;
        var stored = way.Kwh + (step.Share * Net(i, step.Kw)) - car.Car.Problem.DriveKwh[i];
        var cost = price[i - first] * step.Share * model.Problem.Hours[i] * (step.Kw / kw[i - first]);
        return new(stored, way.Cost + cost + Below(i + 1, stored), new(i, step.Share, step.Kw, way.Last));
    }

    private double Below(int boundary, double stored) => BelowWeight * MostValue * scale * Math.Max(0, car.Car.Problem.LowerKwh[boundary] - stored);

    /// <summary>All of an interval, at less current where there is no room for more.</summary>
    private (double Share, double Kw) Whole(int i, double stored, double[] roomKwh)
    {
        var most = kw[i - first];
        var left = roomKwh[i + 1 - first] - stored;
        if (most <= 0 || Net(i, most) <= 0 || Net(i, most) <= left + 1e-9)
        {
            return most > 0 && Net(i, most) > 0 ? (1, most) : (0, 0);
        }

        var less = left > Nothing ? car.Whole(((left / model.Problem.Hours[i]) + car.OverheadKw[i]) / car.Efficiency) : 0;
        return car.Adjustable && less > 0 && less >= car.LeastKw[i] ? (1, less) : (0, 0);
    }

    /// <summary>Part of an interval, as much as there is room for or wanted: the end of a window.</summary>
    private (double Share, double Kw) EndInPart(int i, double stored) => Part(i, Math.Min(room[i + 1 - first], Math.Max(stored, wantedKwh)) - stored);

    /// <summary>Part of an interval, as much as lets the car stay on: the start of a window, which is whole where windows have a least length.</summary>
    private (double Share, double Kw) StartInPart(int i, double stored) => rules.LeastOn <= Duration.Zero && i + 1 < runEnd[i - first] ? Part(i, roomToEnd[i + 1 - first] - stored) : (0, 0);

    private (double Share, double Kw) Part(int i, double kwh)
    {
        var most = kw[i - first];
        var net = most > 0 ? Net(i, most) : 0;
        return kwh > Nothing && kwh < net - Nothing && !(car.Adjustable && shared[i - first]) ? (kwh / net, most) : (0, 0);
    }

    private double Net(int i, double wallKw) => car.NetKw(i, wallKw, 1) * model.Problem.Hours[i];

    private Duration Since(int from, int until) => model.Problem.Boundaries[until] - model.Problem.Boundaries[from];

    /// <summary>A way through the stay up to a boundary.</summary>
    /// <param name="Kwh">What is stored there. [kWh]</param>
    /// <param name="Cost">What it cost. [currency]</param>
    /// <param name="Last">What was charged.</param>
    /// <param name="Start">Where the window begins that goes on as long as it can.</param>
    private sealed record Way(double Kwh, double Cost, Step? Last, int Start = 0);

    private sealed record Step(int Interval, double Share, double Kw, Step? Before);
}
