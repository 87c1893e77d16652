using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>How shares of a relaxed solution are gathered into whole intervals.</summary>
/// <param name="Level">Power while on, between that which takes the whole segment (0) and the most (1).</param>
/// <param name="Early">Whether a run on its own lies at the start of its segment; otherwise at the end.</param>
/// <param name="Spare">Whole intervals taken beyond what the energy needs.</param>
internal readonly record struct RoundingStyle(double Level, bool Early, int Spare);

/// <summary>Turns a relaxed solution into on and off by intervals: what a segment stores is gathered beside a neighbour that is on.</summary>
internal static class OnOffRounding
{
    private const double Nothing = 1e-7;

    /// <summary>On by car and interval, the rules of running kept.</summary>
    /// <param name="grid">The segments.</param>
    /// <param name="powers">By car and segment.</param>
    /// <param name="style">How shares are gathered.</param>
    /// <param name="decided">For each car, the boundary up to which shares are on or off already; none: nowhere.</param>
    public static bool[][] On(Segments grid, HouseholdPowers powers, RoundingStyle style, int[]? decided = null)
    {
        var model = grid.Model;
        var on = new bool[model.Cars.Length][];
        for (var c = 0; c < on.Length; c++)
        {
            on[c] = new bool[model.Problem.Count];
        }

        for (var c = 0; c < on.Length; c++)
        {
            foreach (var (first, end) in model.Cars[c].Stays)
            {
                if (end <= decided?[c])
                {
                    for (var i = first; i < end; i++)
                    {
                        on[c][i] = powers.Share[c][grid.SegmentOf[i]] > RunnableSearch.OnAbove;
                    }

                    continue;
                }

                AddStay(grid, powers, style, on, c, first, end);
                WindowRules.Keep(model, on, c, first, end);
            }
        }

        return on;
    }

    /// <summary>On where powers are, by car and interval.</summary>
    public static bool[][] On(HouseholdModel model, HouseholdPowers powers) =>
        [.. powers.Share.Select((own, c) => own.Select((share, i) => share > RunnableSearch.OnAbove && model.Problem.Cars[c].Problem.Place[i] == Place.Home).ToArray())];

    /// <summary>Whether a car may be on in an interval beside those before it.</summary>
    public static bool Fits(HouseholdModel model, bool[][] on, int c, int i)
    {
        var car = model.Cars[c];
        if (car.MostKw[i] <= 0 || car.Car.Problem.Place[i] != Place.Home)
        {
            return false;
        }

        foreach (var limit in model.Limits)
        {
            var at = Array.IndexOf(limit.Cars, c);
            if (at < 0)
            {
                continue;
            }

            var sum = limit.PerKw[at] * car.LeastKw[i];
            for (var m = 0; m < limit.Cars.Length; m++)
            {
                var other = limit.Cars[m];
                sum += other != c && on[other] is { } o && o[i] ? limit.PerKw[m] * model.Cars[other].LeastKw[i] : 0;
            }

            if (sum > limit.Most[i] + 1e-9)
            {
                return false;
            }
        }

        return true;
    }

    private static void AddStay(Segments grid, HouseholdPowers powers, RoundingStyle style, bool[][] on, int c, int first, int end)
    {
        var (model, car) = (grid.Model, grid.Model.Cars[c]);
        var hours = model.Problem.Hours;
        var left = 0.0;
        for (var s = grid.SegmentOf[first]; s < grid.Count && grid.First[s] < end; s++)
        {
            var (from, until) = (grid.First[s], grid.First[s + 1]);
            if (powers.Share[c][s] <= Nothing || car.MostKw[from] <= 0)
            {
                continue;
            }

            var wanted = car.NetKw(from, powers.WallKw[c][s], powers.Share[c][s]);
            var flat = Math.Clamp((wanted + car.OverheadKw[from]) / car.Efficiency, car.LeastKw[from], car.MostKw[from]);
            var level = flat + (style.Level * (car.MostKw[from] - flat));
            // What the intervals before it took beyond their need comes off this one's: of shares in neighbouring intervals only as many are on as the energy asks for.
            var need = (left + (wanted * grid.Hours[s])) / car.NetKw(from, level, 1);
            var forward = (from > first && on[c][from - 1])
                || (style.Early && !(until < end && s + 1 < grid.Count && powers.Share[c][s + 1] > 0.5));
            var spare = style.Spare;
            for (var k = 0; k < until - from && (need > Nothing || spare > 0); k++)
            {
                var i = forward ? from + k : until - 1 - k;
                if (Fits(model, on, c, i))
                {
                    spare -= need > Nothing ? 0 : 1;
                    on[c][i] = true;
                    need -= hours[i];
                }
            }

            // What other cars left no room for is taken later in the stay.
            left = Math.Abs(need) > 1e-6 ? need * car.NetKw(from, level, 1) : 0;
        }

        for (var i = end - 1; i >= first && left > 1e-6; i--)
        {
            if (!on[c][i] && Fits(model, on, c, i))
            {
                on[c][i] = true;
                left -= car.NetKw(i, car.MostKw[i], 1) * hours[i];
            }
        }
    }
}
