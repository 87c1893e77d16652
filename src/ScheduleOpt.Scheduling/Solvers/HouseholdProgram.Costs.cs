using Google.OrTools.LinearSolver;
using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>The costs of the programme: energy, carbon, terms, minimum bills, end values.</summary>
internal sealed partial class HouseholdProgram
{
    /// <summary>Adds all costs and asks for the least.</summary>
    private void AddCosts()
    {
        var cost = new LinearSum();
        var bills = model.LeastBills.Select(b => b.BillingPeriod).Distinct().ToDictionary(p => p, _ => new LinearSum());
        var use = new LinearSum?[grid.Count];
        for (var s = 0; s < grid.Count; s++)
        {
            var at = model.Problem.Boundaries[grid.First[s]];
            var bill = bills.FirstOrDefault(b => b.Key.Contains(at)).Value ?? cost;
            use[s] = AddEnergyCost(s, bill, cost);
        }

        for (var t = 0; t < model.Terms.Length; t++)
        {
            var term = model.Terms[t];
            var bill = bills.FirstOrDefault(b => b.Key == term.BillingPeriod).Value ?? cost;
            AddPieces(term.Pieces, term is PeakModel peak ? Peak(t, peak, use) : Use((UseModel)term, use), bill);
        }

        foreach (var (period, extra) in bills)
        {
            AddLeastBills(model.LeastBills.Where(b => b.BillingPeriod == period), extra, cost);
        }

        for (var c = 0; c < model.Cars.Length; c++)
        {
            var problem = model.Problem.Cars[c].Problem;
            if (problem.EndValuePerKwh > 0)
            {
                var worth = solver.MakeNumVar(double.NegativeInfinity, problem.OrdinaryKwh, string.Empty);
                var row = solver.MakeConstraint(0, Infinity);
                row.SetCoefficient(last[c], 1);
                row.SetCoefficient(worth, -1);
                cost.Add(worth, -problem.EndValuePerKwh);
            }
        }

        cost.Minimise(solver);
    }

    /// <summary>Adds the energy of a segment to the bill; gives import above that without charging, or null if there is none. [kW]</summary>
    private LinearSum? AddEnergyCost(int s, LinearSum bill, LinearSum cost)
    {
        var problem = model.Problem;
        var (i, hours) = (grid.First[s], grid.Hours[s]);
        var (import, export, carbon) = (problem.ImportPrice[i], problem.ExportPrice[i], problem.CarbonPrice[i]);
        var taken = new LinearSum();
        for (var c = 0; c < model.Cars.Length; c++)
        {
            var car = model.Cars[c];
            var own = car.Car.Problem;
            if (own.Place[i] == Place.Home)
            {
                AddWall(taken, c, s, 1);
                if (import < 0)
                {
                    // Below a price of zero overhead earns nothing, so that no energy is burned to earn it.
                    AddShare(cost, c, s, -import * car.OverheadKw[i] / car.Efficiency * hours);
                }
            }
            else if (own.Place[i] == Place.Stop)
            {
                var perShare = own.Price[i] >= 0 ? car.MostKw[i] : own.NetKw[i] / car.Efficiency;
                AddShare(cost, c, s, own.Price[i] * perShare * hours);
            }
        }

        if (taken.IsConstant && taken.Constant == 0)
        {
            return null;
        }

        var surplus = Math.Max(0, -model.BaseKw[i]);
        if (surplus == 0)
        {
            bill.Add(taken, import * hours);
            cost.Add(taken, carbon * hours);
            return taken;
        }

        bill.Add(taken, export * hours);
        if (model.MostKw[i] <= surplus)
        {
            return null;
        }

        // imp >= taken - surplus; exp = imp - taken + surplus.
        var imported = solver.MakeNumVar(0, model.MostKw[i] - surplus, string.Empty);
        var balance = new LinearSum();
        balance.Add(imported, 1);
        balance.Add(taken, -1);
        balance.Require(solver, -surplus, Infinity);
        if (model.ChoosesFlow[i] && plan.Imports is null)
        {
            var imports = plan.FreeFlows ? solver.MakeNumVar(0, 1, string.Empty) : solver.MakeBoolVar(string.Empty);
            var import0 = solver.MakeConstraint(-Infinity, 0);
            import0.SetCoefficient(imported, 1);
            import0.SetCoefficient(imports, -(model.MostKw[i] - surplus));
            var export0 = new LinearSum();
            export0.Add(balance, 1);
            export0.Add(imports, surplus);
            export0.Require(solver, -Infinity, 0);
        }

        if (model.ChoosesFlow[i] && plan.Imports is { } sides)
        {
            AddFlowPrice(sides[i], taken, surplus, (import - export) * hours, carbon * hours, bill, cost);
        }
        else
        {
            bill.Add(imported, (import - export) * hours);
            cost.Add(imported, carbon * hours);
        }

        var above = new LinearSum();
        above.Add(imported, 1);
        return above;
    }

    /// <summary>The price of one side of a flow, on all that is taken: export is on the bill already.</summary>
    private static void AddFlowPrice(bool imports, LinearSum taken, double surplus, double more, double carbon, LinearSum bill, LinearSum cost)
    {
        if (imports)
        {
            bill.Add(taken, more);
            bill.Add(-surplus * more);
            cost.Add(taken, carbon);
            cost.Add(-surplus * carbon);
        }
    }

    private LinearSum Use(UseModel term, LinearSum?[] use)
    {
        var sum = new LinearSum();
        for (var s = 0; s < grid.Count; s++)
        {
            if (term.Counts[grid.First[s]] && use[s] is { } above)
            {
                sum.Add(above, grid.Hours[s]);
            }
        }

        return sum;
    }

    /// <summary>The highest average above what is billed anyway.</summary>
    private LinearSum Peak(int index, PeakModel term, LinearSum?[] use)
    {
        var range = plan.Peaks?[index] ?? new(0, term.Pieces.Pieces[^1].To);
        var peak = peaks[index] = solver.MakeNumVar(range.From, range.To, string.Empty);
        var whole = new HashSet<int>();
        foreach (var window in grid.Windows[index])
        {
            var firstSegment = grid.SegmentOf[window.First];
            var lastSegment = grid.SegmentOf[window.First + window.Hours.Length - 1];
            if (firstSegment == lastSegment && !whole.Add(firstSegment))
            {
                // Several whole windows in one segment have one average.
                continue;
            }

            var row = new LinearSum();
            for (var k = 0; k < window.Hours.Length; k++)
            {
                var i = window.First + k;
                var part = window.Hours[k] / window.Total;
                row.Add(Math.Max(0, model.BaseKw[i]) * part);
                if (use[grid.SegmentOf[i]] is { } above)
                {
                    row.Add(above, part);
                }
            }

            row.Add(-term.BilledKw);
            row.Add(peak, -1);
            row.Require(solver, double.NegativeInfinity, 0);
        }

        var sum = new LinearSum();
        sum.Add(peak, 1);
        return sum;
    }

    private void AddPieces(CostPieces cost, LinearSum quantity, LinearSum bill)
    {
        var pieces = cost.Pieces;
        if (pieces.Count == 1)
        {
            bill.Add(pieces[0].Fixed);
            bill.Add(quantity, pieces[0].Slope);
        }
        else if (cost.IsConvex)
        {
            // The highest of its pieces.
            var highest = solver.MakeNumVar(double.NegativeInfinity, Infinity, string.Empty);
            foreach (var piece in pieces)
            {
                var row = new LinearSum();
                row.Add(highest, 1);
                row.Add(quantity, -piece.Slope);
                row.Require(solver, piece.Fixed, Infinity);
            }

            bill.Add(highest, 1);
        }
        else
        {
            AddChoice(pieces, quantity, bill);
        }
    }

    /// <summary>One piece is chosen, and the quantity lies in it.</summary>
    private void AddChoice(IReadOnlyList<CostPiece> pieces, LinearSum quantity, LinearSum bill)
    {
        var (one, parts) = (new LinearSum(), new LinearSum());
        foreach (var piece in pieces)
        {
            var chosen = solver.MakeBoolVar(string.Empty);
            var part = solver.MakeNumVar(0, piece.To, string.Empty);
            one.Add(chosen, 1);
            parts.Add(part, 1);
            Bound(part, chosen, piece.From, 0, Infinity);
            Bound(part, chosen, piece.To, -Infinity, 0);
            bill.Add(chosen, piece.Fixed);
            bill.Add(part, piece.Slope);
        }

        one.Require(solver, 1, 1);
        parts.Add(quantity, -1);
        parts.Require(solver, 0, 0);

        void Bound(Variable part, Variable chosen, double edge, double from, double to)
        {
            var row = solver.MakeConstraint(from, to);
            row.SetCoefficient(part, 1);
            row.SetCoefficient(chosen, -edge);
        }
    }

    /// <summary>max(extra bill, least) - max(0, least), one minimum on the other.</summary>
    private void AddLeastBills(IEnumerable<LeastBill> bills, LinearSum extra, LinearSum cost)
    {
        foreach (var bill in bills)
        {
            var reached = solver.MakeNumVar(bill.Least, Infinity, string.Empty);
            var row = new LinearSum();
            row.Add(reached, 1);
            row.Add(extra, -1);
            row.Require(solver, 0, Infinity);
            extra = new LinearSum();
            extra.Add(reached, 1);
            extra.Add(-Math.Max(0, bill.Least));
        }

        cost.Add(extra, 1);
    }
}
