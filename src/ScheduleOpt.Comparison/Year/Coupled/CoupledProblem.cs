using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Solvers;

namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>A problem with coupled charges, solved by the direct sweep at changed prices and under levels of power.</summary>
/// <remarks>A level lets a part of each interval be spent at full power, the part that keeps the average below it: full power stays the cheapest way to fill.</remarks>
internal sealed class CoupledProblem
{
    private readonly ShortfallOrder order;

    /// <param name="problem">The problem at prices per kWh.</param>
    /// <param name="charges">The charges.</param>
    /// <param name="order">Which shortfall is spared first.</param>
    public CoupledProblem(ChargingProblem problem, CoupledCharges charges, ShortfallOrder order)
    {
        (Problem, Charges, this.order) = (problem, charges, order);
        MeterOf = new int[problem.Count];
        var step = charges.Beside.Interval.BclCompatibleTicks;
        for (var i = 0; i < MeterOf.Length; i++)
        {
            MeterOf[i] = (int)Math.Min(charges.Beside.Count - 1, (problem.Boundaries[i] - charges.Beside.Start).BclCompatibleTicks / step);
        }
    }

    public ChargingProblem Problem { get; }

    public CoupledCharges Charges { get; }

    /// <summary>The metering interval in which each interval begins.</summary>
    public int[] MeterOf { get; }

    /// <summary>Raises added prices until no price at home is below zero.</summary>
    /// <param name="addedPerKwh">What is added to the price of home energy, by metering interval. [currency/kWh]</param>
    /// <param name="factorOf">What prices at home are multiplied by, by billing period; none: one.</param>
    /// <returns>The most that it makes of all that could be charged. [currency]</returns>
    public double RaiseToZero(double[] addedPerKwh, double[]? factorOf)
    {
        var raised = new double[addedPerKwh.Length];
        for (var i = 0; i < Problem.Count; i++)
        {
            if (Problem.Place[i] == Place.Home && Problem.WallKw[i] > 0)
            {
                raised[MeterOf[i]] = Math.Max(raised[MeterOf[i]], -Problem.Price[i] - addedPerKwh[MeterOf[i]]);
            }
        }

        var most = 0.0;
        for (var i = 0; i < Problem.Count; i++)
        {
            most += Problem.Place[i] == Place.Home ? (factorOf?[Charges.PeriodOf[MeterOf[i]]] ?? 1) * raised[MeterOf[i]] * Problem.WallKw[i] * Problem.Hours[i] : 0;
        }

        for (var m = 0; m < raised.Length; m++)
        {
            addedPerKwh[m] += raised[m];
        }

        return most;
    }

    /// <summary>Solves it.</summary>
    /// <param name="addedPerKwh">What is added to the price of home energy, by metering interval; none: nothing. [currency/kWh]</param>
    /// <param name="factorOf">What prices at home are multiplied by, by billing period; none: one.</param>
    /// <param name="mostKw">The power that the car keeps on average over the time it could charge, by metering interval; none: no limit. [kW]</param>
    public CoupledPlan Solve(double[]? addedPerKwh, double[]? factorOf, double[]? mostKw)
    {
        var (problem, most) = (Problem, mostKw is null ? null : new double[Problem.Count]);
        var price = addedPerKwh is null && factorOf is null ? problem.Price : (double[])problem.Price.Clone();
        var wall = most is null ? problem.WallKw : (double[])problem.WallKw.Clone();
        var net = most is null ? problem.NetKw : (double[])problem.NetKw.Clone();
        for (var i = 0; i < problem.Count; i++)
        {
            if (most is not null)
            {
                most[i] = 1;
            }

            if (problem.Place[i] != Place.Home)
            {
                continue;
            }

            var m = MeterOf[i];
            if (price != problem.Price)
            {
                price[i] = (factorOf?[Charges.PeriodOf[m]] ?? 1) * (price[i] + (addedPerKwh?[m] ?? 0));
            }

            if (most is not null && problem.WallKw[i] > 0 && mostKw![m] < double.PositiveInfinity)
            {
                var share = Math.Clamp(mostKw[m] / problem.WallKw[i], 0, 1);
                most[i] = share;
                wall[i] *= share;
                net[i] *= share;
            }
        }

        var changed = problem with { Price = price, WallKw = wall, NetKw = net };
        var best = Scheduler.Solve(changed, SolverChoice.Direct, order);
        return new CoupledPlan(best, most, 0) { Solved = changed };
    }

    /// <summary>Energy of a plan at home in each metering interval. [kWh]</summary>
    public double[] Metered(CoupledPlan plan, out double energyCost)
    {
        var metered = new double[Charges.Beside.Count];
        energyCost = 0;
        for (var i = 0; i < Problem.Count; i++)
        {
            var kwh = plan.Best.Shares[i] * plan.Solved.WallKw[i] * Problem.Hours[i];
            if (kwh > 0)
            {
                energyCost += kwh * Problem.Price[i];
                if (Problem.Place[i] == Place.Home)
                {
                    metered[MeterOf[i]] += kwh;
                }
            }
        }

        return metered;
    }

    /// <summary>The plan with its shares of whole intervals.</summary>
    public static CoupledPlan WithWholeShares(CoupledPlan plan)
    {
        if (plan.Most is not { } most)
        {
            return plan;
        }

        var shares = new double[most.Length];
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = plan.Best.Shares[i] * most[i];
        }

        return plan with { Best = plan.Best with { Shares = shares } };
    }
}
