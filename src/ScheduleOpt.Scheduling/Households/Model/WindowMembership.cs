namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>In which averages of demand terms each interval lies.</summary>
internal sealed class WindowMembership
{
    private readonly List<(int Term, int Window)>[] windowsOf;
    private readonly IReadOnlyList<DemandWindow>[] terms;
    private readonly HouseholdProblem problem;

    private readonly bool[] overlap;

    /// <param name="model">The household.</param>
    /// <param name="averages">Windows by term of the model.</param>
    /// <param name="following">Whether they are few of those that slide.</param>
    public WindowMembership(HouseholdModel model, IReadOnlyList<DemandWindow>[] averages, bool following)
    {
        problem = model.Problem;
        terms = [.. averages.Where((_, t) => model.Terms[t] is PeakModel)];
        overlap = [.. model.Terms.OfType<PeakModel>().Select(peak => peak.Sliding && !following)];
        windowsOf = new List<(int, int)>[problem.Count];
        for (var i = 0; i < windowsOf.Length && terms.Length > 0; i++)
        {
            windowsOf[i] = [];
        }

        for (var t = 0; t < terms.Length; t++)
        {
            for (var w = 0; w < terms[t].Count; w++)
            {
                var window = terms[t][w];
                for (var k = 0; k < window.Hours.Length; k++)
                {
                    windowsOf[window.First + k].Add((t, w));
                }
            }
        }
    }

    public bool Any => terms.Length > 0;

    /// <summary>Whether both neighbours of a boundary lie in the same windows, each with all of its length.</summary>
    public bool SameAround(int boundary) =>
        !Any || (windowsOf[boundary - 1].SequenceEqual(windowsOf[boundary]) && windowsOf[boundary].All(m => IsInside(m, boundary - 1) && IsInside(m, boundary)));

    /// <summary>Whether, for every term, two neighbouring runs lie in no window, or both are whole windows that don't overlap others.</summary>
    public bool AreWhole(int from, int middle, int end)
    {
        for (var t = 0; t < terms.Length; t++)
        {
            if (overlap[t] && (windowsOf[from].Any(m => m.Term == t) || windowsOf[middle].Any(m => m.Term == t)))
            {
                return false;
            }

            if (IsWhole(t, from, middle) != IsWhole(t, middle, end) || IsWhole(t, from, middle) is null)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>True: it is whole windows of the term; false: it lies in none; null: neither.</summary>
    private bool? IsWhole(int term, int from, int end)
    {
        var at = from;
        while (at < end)
        {
            var members = windowsOf[at].Where(m => m.Term == term).ToArray();
            if (members.Length == 0)
            {
                if (at > from)
                {
                    return null;
                }

                for (; at < end; at++)
                {
                    if (windowsOf[at].Any(m => m.Term == term))
                    {
                        return null;
                    }
                }

                return false;
            }

            var window = terms[term][members[0].Window];
            if (members.Length > 1 || window.First != at || at + window.Hours.Length > end
                || Enumerable.Range(at, window.Hours.Length).Any(i => !IsInside(members[0], i)))
            {
                return null;
            }

            at += window.Hours.Length;
        }

        return true;
    }

    private bool IsInside((int Term, int Window) member, int interval)
    {
        var window = terms[member.Term][member.Window];
        return Math.Abs(window.Hours[interval - window.First] - problem.Hours[interval]) < 1e-9;
    }
}
