using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>Powers that are changed stay by stay while that leaves less unmet in the strict order.</summary>
/// <param name="model">The household.</param>
/// <param name="order">Which shortfall is spared first.</param>
/// <param name="mostSteps">After so many steps of plans of stays no more are made.</param>
internal sealed class Filling(HouseholdModel model, ShortfallOrder order, int mostSteps)
{
    private const int MostPasses = 3;
    private const int MostMends = 4;

    private const double Rounding = 1e-6;

    private readonly double[][] nothing = HouseholdShortfalls.None(model).TripKwh;
    private State best = null!;

    /// <summary>Steps of plans so far.</summary>
    public int Steps { get; private set; }

    /// <summary>Changes powers; gives those that leave least unmet.</summary>
    public HouseholdPowers Run(HouseholdPowers powers)
    {
        best = Measured(powers.Copy());
        for (var (pass, improved) = (0, true); improved && pass < MostPasses; pass++)
        {
            var before = best;
            Bounds();
            Departures(s => s.TripKwh);
            Departures(s => s.TargetKwh);
            improved = !ReferenceEquals(before, best);
        }

        return best.Powers;
    }

    /// <summary>Stays in which a car is below what it must have.</summary>
    private void Bounds()
    {
        for (var c = 0; c < model.Cars.Length && best.Shortfalls.BelowKwh > HouseholdShortfalls.Counts; c++)
        {
            var lower = model.Cars[c].Car.Problem.LowerKwh;
            foreach (var stay in model.Cars[c].Stays)
            {
                var missing = Enumerable.Range(stay.First + 1, stay.End - stay.First).Max(b => lower[b] - best.StoredKwh[c][b]);
                if (missing > Rounding)
                {
                    Improve(c, stay, missing);
                }
            }
        }
    }

    private void Departures(Func<HouseholdShortfalls, double[][]> kind)
    {
        foreach (var (c, k) in model.DeparturesInOrder())
        {
            var departure = model.Cars[c].Car.Problem.Departures[k].Boundary;
            foreach (var stay in model.Cars[c].Stays.Where(s => s.First < departure).Reverse())
            {
                var missing = kind(best.Shortfalls)[c][k];
                if (missing <= HouseholdShortfalls.Counts)
                {
                    break;
                }

                Improve(c, stay, missing);
            }
        }
    }

    private void Improve(int c, (int First, int End) stay, double missingKwh)
    {
        foreach (var yields in Enum.GetValues<Yields>())
        {
            if (Changed(best, c, stay, missingKwh, yields) is { } changed && IsBetter(changed = Mended(changed), best))
            {
                best = changed;
                return;
            }
        }
    }

    /// <summary>Others that a change leaves short are helped in turn, as long as the first in order is one that the best leaves less short.</summary>
    private State Mended(State trial)
    {
        for (var mends = 0; mends < MostMends && !IsBetter(trial, best); mends++)
        {
            if (FirstWorse(trial) is not var (c, k, missing) || Mend(trial, c, k, missing) is not { } next)
            {
                break;
            }

            trial = next;
        }

        return trial;
    }

    private State? Mend(State trial, int c, int k, double missingKwh)
    {
        var departure = model.Cars[c].Car.Problem.Departures[k].Boundary;
        foreach (var stay in model.Cars[c].Stays.Where(s => s.First < departure).Reverse())
        {
            foreach (var yields in Enum.GetValues<Yields>())
            {
                if (Changed(trial, c, stay, missingKwh, yields) is { } next && IsBetter(next, trial))
                {
                    return next;
                }
            }
        }

        return null;
    }

    /// <summary>The first departure in order that is shorter than in the best.</summary>
    private (int Car, int Departure, double Kwh)? FirstWorse(State trial)
    {
        foreach (var (mine, theirs) in new[] { (trial.Shortfalls.TripKwh, best.Shortfalls.TripKwh), (trial.Shortfalls.TargetKwh, best.Shortfalls.TargetKwh) })
        {
            foreach (var (c, k) in model.DeparturesInOrder())
            {
                if (mine[c][k] > theirs[c][k] + Rounding)
                {
                    return (c, k, mine[c][k] - theirs[c][k]);
                }
            }
        }

        return null;
    }

    private bool IsBetter(State one, State other) => one.Shortfalls.Compare(other.Shortfalls, model, order) < 0;

    /// <summary>A stay planned anew, and what others then have; null where nothing can be given up.</summary>
    private State? Changed(State from, int c, (int First, int End) stay, double missingKwh, Yields yields)
    {
        if ((yields != Yields.Nothing && model.Limits.Count == 0) || Steps >= mostSteps)
        {
            return null;
        }

        var trial = from.Powers.Copy();
        Steps += BestStay.Plan(model, trial, c, stay, from.StoredKwh[c][stay.First], from.StoredKwh[c][stay.End] + missingKwh, (other, i) => Kept(from, other, i, c, stay.End, yields));
        if (yields != Yields.Nothing)
        {
            PlanOthers(from, trial, c, stay);
        }

        KeepRoom(from, trial);
        return Measured(trial);
    }

    private double Kept(State from, int other, int i, int c, int departure, Yields yields)
    {
        var level = PowerLeft.Level(model, from.Powers, other, i);
        return yields switch
        {
            Yields.Nothing => level,
            Yields.Current => Math.Min(level, model.Cars[other].LeastKw[i]),
            Yields.TimeOfLater => DueAfter(other, i) is var due && (due > departure || (due == departure && other > c)) ? 0 : level,
            _ => 0,
        };
    }

    private int DueAfter(int c, int i) => model.Cars[c].Car.Problem.Departures.FirstOrDefault(d => d.Boundary > i)?.Boundary ?? int.MaxValue;

    /// <summary>Other cars in the time of a stay have what limits leave: less current, or other time.</summary>
    private void PlanOthers(State from, HouseholdPowers trial, int c, (int First, int End) taken)
    {
        int[] others = [.. Enumerable.Range(0, model.Cars.Length).Where(o => o != c).OrderBy(o => DueAfter(o, taken.First)).ThenBy(o => o)];
        var off = new List<(int Car, (int First, int End) Stay)>();
        for (var i = taken.First; i < taken.End; i++)
        {
            foreach (var other in others.Reverse().Where(o => PowerLeft.Level(model, trial, o, i) > 0))
            {
                var level = PowerLeft.Level(model, trial, other, i);
                var left = PowerLeft.Kw(model, other, i, o => PowerLeft.Level(model, trial, o, i));
                if (left >= level - 1e-9)
                {
                    continue;
                }

                // Those due before it lower theirs in their turn.
                left = left > 0 ? left : PowerLeft.Kw(model, other, i, o => o == c ? PowerLeft.Level(model, trial, o, i) : Math.Min(PowerLeft.Level(model, trial, o, i), model.Cars[o].LeastKw[i]));
                left = Math.Min(left, level);
                trial.WallKw[other][i] = left * trial.Share[other][i];
                if (left <= 0)
                {
                    var stay = model.Cars[other].Stays.First(s => s.First <= i && i < s.End);
                    Array.Clear(trial.Share[other], stay.First, stay.End - stay.First);
                    Array.Clear(trial.WallKw[other], stay.First, stay.End - stay.First);
                    off.Add((other, stay));
                }
            }
        }

        foreach (var (other, stay) in off.OrderBy(o => o.Stay.End).ThenBy(o => o.Car))
        {
            var stored = RunnableSchedule.Unmet(model, trial, nothing).StoredKwh[other][stay.First];
            Steps += BestStay.Plan(model, trial, other, stay, stored, from.StoredKwh[other][stay.End], (o, i) => PowerLeft.Level(model, trial, o, i));
        }
    }

    /// <summary>More stored may leave less room in a later stay, or at a stop.</summary>
    private void KeepRoom(State before, HouseholdPowers trial)
    {
        for (var c = 0; c < model.Cars.Length; c++)
        {
            var car = model.Cars[c];
            var upper = car.Car.Problem.UpperKwh;
            for (var from = 0; ;)
            {
                var stored = RunnableSchedule.Unmet(model, trial, nothing).StoredKwh[c];
                var b = Over(stored, upper, from);
                if (b >= upper.Length)
                {
                    break;
                }

                if (car.Stays.FirstOrDefault(s => s.First < b && b <= s.End) is { End: > 0 } stay)
                {
                    Steps += BestStay.Plan(model, trial, c, stay, stored[stay.First], before.StoredKwh[c][stay.End], (o, i) => PowerLeft.Level(model, trial, o, i));
                    from = stay.End + 1;
                }
                else
                {
                    Less(trial, car, c, b - 1, stored[b] - car.RoomKwh[b]);
                    from = b + 1;
                }
            }
        }
    }

    private static int Over(double[] stored, double[] upper, int from)
    {
        var b = from;
        while (b < upper.Length && stored[b] <= upper[b] + Rounding)
        {
            b++;
        }

        return b;
    }

    private void Less(HouseholdPowers trial, CarPower car, int c, int stop, double kwh)
    {
        var share = trial.Share[c][stop];
        var net = share > 0 ? car.NetKw(stop, trial.WallKw[c][stop], share) * model.Problem.Hours[stop] : 0;
        var kept = net > 0 ? Math.Max(0, 1 - (kwh / net)) : 1;
        (trial.Share[c][stop], trial.WallKw[c][stop]) = (share * kept, trial.WallKw[c][stop] * kept);
    }

    private State Measured(HouseholdPowers measured)
    {
        var (stored, shortfalls) = RunnableSchedule.Unmet(model, measured, nothing);
        return new(measured, stored, shortfalls);
    }

    private sealed record State(HouseholdPowers Powers, double[][] StoredKwh, HouseholdShortfalls Shortfalls);

    /// <summary>What other cars give up.</summary>
    private enum Yields
    {
        /// <summary>They keep what they have.</summary>
        Nothing,

        /// <summary>They stay on at their least current.</summary>
        Current,

        /// <summary>Those due later give up their time.</summary>
        TimeOfLater,

        /// <summary>All give up their time.</summary>
        Time,
    }
}
