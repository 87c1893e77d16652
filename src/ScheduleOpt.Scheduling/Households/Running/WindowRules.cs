using NodaTime;
using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Changes on and off of one stay until its windows keep the car's rules: how many, how long, how far apart.</summary>
internal static class WindowRules
{
    /// <summary>Changes a stay.</summary>
    /// <param name="model">The household.</param>
    /// <param name="on">On and off by car and interval.</param>
    /// <param name="c">The car.</param>
    /// <param name="first">First interval of the stay.</param>
    /// <param name="end">Boundary of its end.</param>
    /// <param name="fewer">Fewer windows than its rules allow; none: as they do.</param>
    public static void Keep(HouseholdModel model, bool[][] on, int c, int first, int end, int? fewer = null)
    {
        var rules = model.Cars[c].Car.Rules;
        rules = fewer is null ? rules : rules with { MostWindows = fewer };
        if (rules.MostWindows is null && rules.LeastOn <= Duration.Zero && rules.LeastOff <= Duration.Zero)
        {
            return;
        }

        if (rules.MostWindows == 1 && Windows(on[c], first, end).Count() > 1)
        {
            CheapestBlock.Put(model, on, c, first, end);
        }

        var boundaries = model.Problem.Boundaries;
        for (var round = 0; round < 2 * (end - first); round++)
        {
            var windows = Windows(on[c], first, end).ToArray();
            if (windows.FirstOrDefault(w => boundaries[w.End] - boundaries[w.First] < rules.LeastOn && w.End < end) is { End: > 0 } brief)
            {
                if (!Lengthen(model, on, c, first, end, brief))
                {
                    Clear(on[c], brief.First, brief.End);
                }

                continue;
            }

            var gap = SmallestGap(boundaries, windows);
            var close = gap >= 0 && boundaries[windows[gap + 1].First] - boundaries[windows[gap].End] < rules.LeastOff;
            var many = rules.MostWindows is { } most && windows.Length > most;
            if (!close && !many)
            {
                return;
            }

            var smallest = Enumerable.Range(0, windows.Length).MinBy(w => boundaries[windows[w].End] - boundaries[windows[w].First]);
            var (gapStart, gapEnd) = (windows[gap].End, windows[gap + 1].First);
            if (Enumerable.Range(gapStart, gapEnd - gapStart).All(i => OnOffRounding.Fits(model, on, c, i))
                && (close || boundaries[gapEnd] - boundaries[gapStart] <= boundaries[windows[smallest].End] - boundaries[windows[smallest].First]))
            {
                Array.Fill(on[c], true, gapStart, gapEnd - gapStart);
            }
            else
            {
                var dropped = close ? (Length(gap) <= Length(gap + 1) ? gap : gap + 1) : smallest;
                var count = windows[dropped].End - windows[dropped].First;
                Clear(on[c], windows[dropped].First, windows[dropped].End);
                GiveTo(model, on, c, first, end, windows[dropped == 0 ? 1 : dropped - 1], count);
            }

            Duration Length(int w) => boundaries[windows[w].End] - boundaries[windows[w].First];
        }
    }

    /// <summary>The windows of a stay: runs that are on.</summary>
    public static IEnumerable<(int First, int End)> Windows(bool[] on, int first, int end)
    {
        for (var i = first; i < end; i++)
        {
            if (on[i])
            {
                var start = i;
                while (i < end && on[i])
                {
                    i++;
                }

                yield return (start, i);
            }
        }
    }

    private static int SmallestGap(Instant[] boundaries, (int First, int End)[] windows)
    {
        var best = -1;
        for (var w = 0; w + 1 < windows.Length; w++)
        {
            if (best < 0 || boundaries[windows[w + 1].First] - boundaries[windows[w].End] < boundaries[windows[best + 1].First] - boundaries[windows[best].End])
            {
                best = w;
            }
        }

        return best;
    }

    private static bool Lengthen(HouseholdModel model, bool[][] on, int c, int first, int end, (int First, int End) window)
    {
        if (window.End < end && OnOffRounding.Fits(model, on, c, window.End))
        {
            return on[c][window.End] = true;
        }

        return window.First > first && OnOffRounding.Fits(model, on, c, window.First - 1) && (on[c][window.First - 1] = true);
    }

    private static void GiveTo(HouseholdModel model, bool[][] on, int c, int first, int end, (int First, int End) window, int count)
    {
        for (; count > 0; count--)
        {
            if (window.End < end && !on[c][window.End] && OnOffRounding.Fits(model, on, c, window.End))
            {
                on[c][window.End++] = true;
            }
            else if (window.First > first && !on[c][window.First - 1] && OnOffRounding.Fits(model, on, c, window.First - 1))
            {
                on[c][--window.First] = true;
            }
        }
    }

    private static void Clear(bool[] on, int from, int until) => Array.Fill(on, false, from, until - from);
}
