using Google.OrTools.LinearSolver;
using NodaTime;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>How cars may run: on or off, whole amperes, windows and their lengths.</summary>
internal sealed partial class HouseholdProgram
{
    private const int MostPairs = 5000;

    /// <summary>Gives the search a running schedule to begin with; before the first solve, as later ones break it.</summary>
    /// <param name="powers">By car and interval; segments before the second departure are intervals.</param>
    public void SetHint(HouseholdPowers powers)
    {
        var (variables, values) = (new List<Variable>(), new List<double>());
        for (var c = 0; c < model.Cars.Length; c++)
        {
            for (var s = 0; s < grid.Count; s++)
            {
                if (plan.Modes[c][s] == OnOff.Integer && on[c][s] is { } z)
                {
                    variables.Add(z);
                    values.Add(powers.Share[c][grid.First[s]] > 1e-9 ? 1 : 0);
                }
            }
        }

        solver.SetHint([.. variables], [.. values]);
    }

    private Variable On(int car, int segment) => on[car][segment]!;

    private void AddOn(int c)
    {
        for (var s = 0; s < grid.Count; s++)
        {
            if (plan.Modes[c][s] == OnOff.Integer)
            {
                AddOn(c, s);
            }
        }
    }

    private void AddRunning(int c)
    {
        var modes = plan.Modes[c];
        foreach (var (first, end) in model.Cars[c].Stays)
        {
            var (from, until) = (grid.SegmentOf[first], grid.SegmentOf[end - 1] + 1);
            if (!Enumerable.Range(from, until - from).Any(s => modes[s] == OnOff.Integer))
            {
                continue;
            }

            AddInterior(c, from, until);
            AddStarts(c, from, until);
        }
    }

    private void AddOn(int c, int s)
    {
        var car = model.Cars[c];
        var z = on[c][s] = solver.MakeBoolVar(string.Empty);
        var share = this.share[c][s]!;
        Row(-Infinity, 0, (share, 1), (z, -1));
        if (power[c][s] is not { } p || car.Car.Rules is not { WholeAmperes: true })
        {
            return;
        }

        // Whole amperes where it is on throughout; at the edge of a window a higher current for less time does the same.
        var i = grid.First[s];
        var kwPerA = car.Car.VoltsAcrossPhases / 1000;
        var amperes = solver.MakeIntVar(0, Math.Round(car.MostKw[i] / kwPerA), string.Empty);
        Row(-Infinity, 0, (p, 1), (amperes, -kwPerA));
        Row(-car.MostKw[i], Infinity, (p, 1), (amperes, -kwPerA), (share, -car.MostKw[i]));
    }

    /// <summary>Between two neighbours that are on, an interval is on throughout; beside another car of an adjustable car's circuit too.</summary>
    private void AddInterior(int c, int from, int until)
    {
        for (var s = from; s < until; s++)
        {
            if (on[c][s] is not { } z)
            {
                continue;
            }

            if (s > from && s + 1 < until && on[c][s - 1] is { } before && on[c][s + 1] is { } after)
            {
                Row(-2, Infinity, (share[c][s]!, 1), (before, -1), (z, -1), (after, -1));
            }

            if (power[c][s] is not null)
            {
                foreach (var other in Sharing(c, s))
                {
                    // Of a car past its second departure only the average counts.
                    if (on[other][s] is { } beside)
                    {
                        Row(-1, Infinity, (share[c][s]!, 1), (z, -1), (beside, -1));
                    }
                }
            }
        }
    }

    private IEnumerable<int> Sharing(int c, int s) =>
        model.Limits.Where(l => l.Cars.Contains(c) && !l.IsSlack(model.Cars, grid.First[s])).SelectMany(l => l.Cars).Where(o => o != c).Distinct();

    private void AddStarts(int c, int from, int until)
    {
        var rules = model.Cars[c].Car.Rules;
        var counts = rules.MostWindows is not null;
        if (!counts && rules.LeastOn <= Duration.Zero && rules.LeastOff <= Duration.Zero)
        {
            return;
        }

        var starts = new Variable?[until - from];
        for (var s = from; s < until; s++)
        {
            if (on[c][s] is not { } z)
            {
                continue;
            }

            var before = s > from ? on[c][s - 1] : null;
            if (counts || (rules.LeastOn > Duration.Zero && !HasFewPairs(c)))
            {
                var start = starts[s - from] = solver.MakeNumVar(0, 1, string.Empty);
                Row(0, Infinity, before is null ? [(start, 1), (z, -1)] : [(start, 1), (z, -1), (before, 1)]);
            }

            // A car that can't charge in the next interval is off there too.
            if (before is null && s > from && rules.LeastOff > Duration.Zero)
            {
                AddPauseBeforeGap(c, from, s, rules.LeastOff);
            }
        }

        if (HasFewPairs(c))
        {
            AddPairs(c, from, until);
        }
        else
        {
            AddLeastOn(c, from, starts, rules.LeastOn);
            AddLeastOff(c, from, until, rules.LeastOff);
        }

        if (counts)
        {
            Row(-Infinity, rules.MostWindows!.Value, [.. starts.OfType<Variable>().Select(start => (start, 1.0))]);
        }
    }

    // With a row for each pair of intervals SCIP finds the best schedule of one car sooner, as long as they are few; of several cars, or with long lengths on a fine grid, they are most of the programme.
    private bool HasFewPairs(int c)
    {
        var rules = model.Cars[c].Car.Rules;
        var perInterval = (rules.LeastOn + rules.LeastOff).TotalHours / grid.Hours[0];
        return model.Cars.Length == 1 && plan.Modes[c].Count(mode => mode == OnOff.Integer) * perInterval <= MostPairs;
    }

    /// <summary>On from an interval: on throughout until the least length has passed or the stay ends. Off from it: off until the least pause has.</summary>
    private void AddPairs(int c, int from, int until)
    {
        var rules = model.Cars[c].Car.Rules;
        for (var s = from; s < until; s++)
        {
            if (on[c][s] is not { } z)
            {
                continue;
            }

            var before = s > from ? on[c][s - 1] : null;
            for (var t = s; t < until && Since(s, t) < rules.LeastOn; t++)
            {
                if (share[c][t] is { } share1 && on[c][t] is not null)
                {
                    Row(0, Infinity, before is null ? [(share1, 1), (z, -1)] : [(share1, 1), (z, -1), (before, 1)]);
                }
                else
                {
                    Row(-Infinity, 0, before is null ? [(z, 1)] : [(z, 1), (before, -1)]);
                }
            }

            for (var t = s + 1; before is not null && t < until && Since(s, t) < rules.LeastOff; t++)
            {
                if (on[c][t] is { } later)
                {
                    Row(-Infinity, 1, (later, 1), (before, 1), (z, -1));
                }
            }
        }
    }

    /// <summary>Started no longer ago than the least length: on throughout, unless the stay has ended. Of these starts there is one at most.</summary>
    private void AddLeastOn(int c, int from, Variable?[] starts, Duration leastOn)
    {
        for (var t = from; t < from + starts.Length && leastOn > Duration.Zero; t++)
        {
            var recent = new List<(Variable, double)>();
            for (var s = t; s >= from && Since(s, t) < leastOn; s--)
            {
                if (starts[s - from] is { } start)
                {
                    recent.Add((start, -1));
                }
            }

            if (recent.Count > 0)
            {
                Row(0, Infinity, share[c][t] is { } throughout && on[c][t] is not null ? [(throughout, 1), .. recent] : [.. recent]);
            }
        }
    }

    /// <summary>Ended no longer ago than the least pause: off.</summary>
    private void AddLeastOff(int c, int from, int until, Duration leastOff)
    {
        if (leastOff <= Duration.Zero)
        {
            return;
        }

        var ends = new Variable?[until - from];
        for (var s = from + 1; s < until; s++)
        {
            if (on[c][s] is not { } z || on[c][s - 1] is not { } before)
            {
                continue;
            }

            var end = ends[s - from] = solver.MakeNumVar(0, 1, string.Empty);
            Row(0, Infinity, (end, 1), (before, -1), (z, 1));
            var recent = new List<(Variable, double)>();
            for (var e = s; e > from && Since(e, s) < leastOff; e--)
            {
                if (ends[e - from] is { } ended)
                {
                    recent.Add((ended, 1));
                }
            }

            Row(-Infinity, 1, [(z, 1), .. recent]);
        }
    }

    /// <summary>Off in s - 1 because it can't charge there: whoever was on before it must have paused long enough.</summary>
    private void AddPauseBeforeGap(int c, int from, int s, Duration leastOff)
    {
        var gap = s - 1;
        while (gap > from && on[c][gap - 1] is null)
        {
            gap--;
        }

        if (gap > from && Since(gap, s) < leastOff)
        {
            for (var t = s; t < grid.Count && Since(gap, t) < leastOff && on[c][t] is { } later; t++)
            {
                Row(-Infinity, 1, (later, 1), (on[c][gap - 1]!, 1));
            }
        }
    }

    private Duration Since(int from, int segment) =>
        model.Problem.Boundaries[grid.First[segment]] - model.Problem.Boundaries[grid.First[from]];

    private void Row(double from, double to, params ReadOnlySpan<(Variable Variable, double Factor)> parts)
    {
        var row = solver.MakeConstraint(from, to);
        foreach (var (variable, factor) in parts)
        {
            row.SetCoefficient(variable, row.GetCoefficient(variable) + factor);
        }
    }
}
