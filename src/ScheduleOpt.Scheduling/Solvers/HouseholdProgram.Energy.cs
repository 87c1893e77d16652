using Google.OrTools.LinearSolver;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>Stored energy with its bounds and shortfalls, and the limits that cars share.</summary>
internal sealed partial class HouseholdProgram
{
    private void AddEnergy(int c, HouseholdShortfalls? held, ShortfallOrder order)
    {
        // Of a least total, which departure bears it is free.
        bool MayBeShort(Func<HouseholdShortfalls, double[][]> of, int departure) =>
            held is null || of(held)[c][departure] > 0 || (order == ShortfallOrder.LeastTotal && of(held).Any(other => other.Any(kwh => kwh > 0)));

        var car = model.Cars[c];
        var problem = car.Car.Problem;
        var departures = problem.Departures;
        var k = 0;
        for (; k < departures.Length && departures[k].Boundary == 0; k++)
        {
            targetShort[c][k].Add(Math.Max(0, departures[k].RequiredKwh - problem.InitialKwh));
        }

        var balance = new LinearSum();
        balance.Add(problem.InitialKwh);
        var stageStart = 0;
        for (var s = 0; s < grid.Count; s++)
        {
            var (i, b) = (grid.First[s], grid.First[s + 1]);
            var road = problem.Place[i] == Place.Road;
            if (road)
            {
                AddDrive(c, k - 1, i, b, balance, k > 0 && MayBeShort(h => h.TripKwh, k - 1));
            }
            else if (plan.Modes[c][s] != OnOff.Off)
            {
                AddWall(balance, c, s, car.Efficiency * grid.Hours[s]);
                AddShare(balance, c, s, -car.OverheadKw[i] * grid.Hours[s]);
            }

            var departs = k < departures.Length && departures[k].Boundary == b;
            if (s < grid.Count - 1 && !departs && !road && problem.Place[b] != Place.Road
                && problem.LowerKwh[b] <= problem.LowerKwh[stageStart] && problem.UpperKwh[b] >= problem.UpperKwh[grid.First[s + 2]])
            {
                continue;
            }

            // A run in which no bound can bind ends here: one variable and one row.
            var upper = problem.UpperKwh[b];
            var lower = Math.Min(problem.LowerKwh[b], upper);
            var stored = solver.MakeNumVar(held is { BelowKwh: 0 } ? lower : double.NegativeInfinity, upper, string.Empty);
            if (held is not { BelowKwh: 0 })
            {
                var missing = solver.MakeNumVar(0, Infinity, string.Empty);
                var row = solver.MakeConstraint(lower, Infinity);
                row.SetCoefficient(stored, 1);
                row.SetCoefficient(missing, 1);
                below.Add(missing, 1);
            }

            for (; k < departures.Length && departures[k].Boundary == b; k++)
            {
                AddWish(stored, departures[k].RequiredKwh, MayBeShort(h => h.TargetKwh, k), targetShort[c][k]);
            }

            balance.Add(stored, -1);
            balance.Require(solver, 0, 0);
            balance = new LinearSum();
            balance.Add(stored, 1);
            last[c] = stored;
            stageStart = b;
        }

        if (problem.FinalKwh is { } final)
        {
            AddWish(last[c], final, held is null || held.FinalKwh[c] > 0, finalShort[c]);
        }
    }

    private void AddWish(Variable stored, double required, bool mayMiss, LinearSum shortfall)
    {
        if (!mayMiss)
        {
            stored.SetLb(Math.Min(Math.Max(stored.Lb(), required), stored.Ub()));
            return;
        }

        var missing = solver.MakeNumVar(0, Infinity, string.Empty);
        var row = solver.MakeConstraint(required, Infinity);
        row.SetCoefficient(stored, 1);
        row.SetCoefficient(missing, 1);
        shortfall.Add(missing, 1);
    }

    private void AddDrive(int c, int trip, int from, int until, LinearSum balance, bool mayBeShort)
    {
        var drive = 0.0;
        for (var i = from; i < until; i++)
        {
            drive += model.Problem.Cars[c].Problem.DriveKwh[i];
        }

        balance.Add(-drive);
        if (drive > 0 && mayBeShort)
        {
            var missing = solver.MakeNumVar(0, drive, string.Empty);
            tripShort[c][trip].Add(missing);
            balance.Add(missing, 1);
        }
    }

    private void AddLimits()
    {
        foreach (var shared in model.Limits)
        {
            for (var s = 0; s < grid.Count; s++)
            {
                var i = grid.First[s];
                var sum = new LinearSum();
                var open = 0;
                for (var m = 0; m < shared.Cars.Length; m++)
                {
                    var c = shared.Cars[m];
                    if (plan.Modes[c][s] != OnOff.Off && model.Problem.Cars[c].Problem.Place[i] == Place.Home)
                    {
                        AddAgainstLimit(sum, c, s, shared.PerKw[m]);
                        open++;
                    }
                }

                // A car alone is held by its own most.
                if (open > 1 && !shared.IsSlack(model.Cars, i))
                {
                    sum.Require(solver, -Infinity, shared.Most[i]);
                }
            }
        }
    }

    /// <summary>What a car counts towards a limit: its average where that is all that is known, its power while on where running is decided.</summary>
    private void AddAgainstLimit(LinearSum sum, int c, int s, double factor)
    {
        if (power[c][s] is not null || plan.Modes[c][s] is OnOff.Relaxed or OnOff.On)
        {
            AddWall(sum, c, s, factor);
        }
        else if (plan.Modes[c][s] == OnOff.Edge)
        {
            sum.Add(factor * FullKw(c, s));
        }
        else
        {
            sum.Add(On(c, s), factor * FullKw(c, s));
        }
    }
}
