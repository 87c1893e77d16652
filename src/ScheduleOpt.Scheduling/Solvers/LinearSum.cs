using Google.OrTools.LinearSolver;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>A sum of variables with factors, and a constant; a variable may be added more than once.</summary>
internal sealed class LinearSum
{
    private readonly List<(Variable Variable, double Factor)> parts = [];

    public double Constant { get; private set; }

    public double Value() => Constant + parts.Sum(p => p.Factor * p.Variable.SolutionValue());

    public bool IsConstant => parts.Count == 0;

    public void Add(double constant) => Constant += constant;

    public void Add(Variable variable, double factor)
    {
        if (factor != 0)
        {
            parts.Add((variable, factor));
        }
    }

    public void Add(LinearSum other, double factor)
    {
        foreach (var (variable, part) in other.parts)
        {
            Add(variable, part * factor);
        }

        Constant += other.Constant * factor;
    }

    /// <summary>Adds the row from &lt;= this sum &lt;= to.</summary>
    public void Require(Solver solver, double from, double to)
    {
        var row = solver.MakeConstraint(from - Constant, to - Constant);
        foreach (var (variable, factor) in Merged())
        {
            row.SetCoefficient(variable, factor);
        }
    }

    public void Minimise(Solver solver)
    {
        var objective = solver.Objective();
        objective.Clear();
        foreach (var (variable, factor) in Merged())
        {
            objective.SetCoefficient(variable, factor);
        }

        objective.SetOffset(Constant);
        objective.SetMinimization();
    }

    private IEnumerable<(Variable Variable, double Factor)> Merged()
    {
        if (parts.Count < 2)
        {
            return parts;
        }

        var sums = new Dictionary<Variable, double>(parts.Count, ReferenceEqualityComparer.Instance as IEqualityComparer<Variable>);
        var order = new List<Variable>(parts.Count);
        foreach (var (variable, factor) in parts)
        {
            if (!sums.TryGetValue(variable, out var sum))
            {
                order.Add(variable);
            }

            sums[variable] = sum + factor;
        }

        return order.Select(v => (v, sums[v]));
    }
}
