using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>What charging adds to the bill of a household's problem, worked out from power over time alone.</summary>
/// <remarks>Knows nothing of the solver: <see cref="HouseholdCheck"/> holds a schedule's cost against it, and a replayed schedule is priced with it. The
/// definition is in the README of this project.</remarks>
public static class HouseholdBill
{
    /// <summary>What a charging power at home adds to bill and carbon price.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="chargingKw">Power of all cars at home in each interval, warming before departures left out. [kW, average over the interval]</param>
    public static HouseholdCost Of(HouseholdProblem problem, double[] chargingKw)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(chargingKw);
        var without = new double[problem.Count];
        for (var i = 0; i < without.Length; i++)
        {
            without[i] = problem.HouseKw[i] - problem.SolarKw[i];
        }

        return Between(problem, problem.Terms, without, chargingKw);
    }

    /// <summary>The problem with a charging power put where no schedule changes it: in the load, and in what terms know of. The bill of more on top of it adds up with its own to that of both.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="chargingKw">The power. [kW, average over the interval]</param>
    public static HouseholdProblem Beside(HouseholdProblem problem, double[] chargingKw)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(chargingKw);
        return WarmUpInBill.Of(problem with { HouseKw = [.. problem.HouseKw.Zip(chargingKw, (h, c) => h + c)] }, problem.HouseKw, chargingKw);
    }

    /// <summary>Power of all cars at home without their warming, after a replay. [kW, average over the interval]</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="replays">What each car took, in the order of the cars.</param>
    public static double[] ChargingKw(HouseholdProblem problem, IReadOnlyList<ReplayResult> replays)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(replays);
        var sum = new double[problem.Count];
        for (var c = 0; c < replays.Count; c++)
        {
            var car = problem.Cars[c].Problem;
            for (var i = 0; i < sum.Length; i++)
            {
                sum[i] += car.Place[i] == Place.Home ? (replays[c].WallKwh[i] - car.WarmUpKwh(i)) / problem.Hours[i] : 0;
            }
        }

        return sum;
    }

    /// <summary>The bill with a power added, less that without it.</summary>
    /// <param name="problem">Prices and grid.</param>
    /// <param name="terms">Terms that hold where <paramref name="addedKw"/> is not there.</param>
    /// <param name="withoutKw">Load less solar without it. [kW]</param>
    /// <param name="addedKw">The power added. [kW]</param>
    internal static HouseholdCost Between(HouseholdProblem problem, IReadOnlyList<PriceTerm> terms, double[] withoutKw, double[] addedKw)
    {
        var n = problem.Count;
        var (import, more, energy) = (new double[n], new double[n], new double[n]);
        var (bill, carbon) = (0.0, 0.0);
        for (var i = 0; i < n; i++)
        {
            var with = withoutKw[i] + addedKw[i];
            import[i] = Math.Max(0, with);
            more[i] = problem.Hours[i] * (import[i] - Math.Max(0, withoutKw[i]));
            var exportLess = problem.Hours[i] * (Math.Max(0, -withoutKw[i]) - Math.Max(0, -with));
            energy[i] = (more[i] * problem.ImportPrice[i]) + (exportLess * problem.ExportPrice[i]);
            bill += energy[i];
            carbon += more[i] * problem.CarbonPrice[i];
        }

        var parts = new List<TermCost>();
        var counted = new Dictionary<MinimumTerm, double>();
        foreach (var term in terms)
        {
            if (term is not MinimumTerm && TermBill.Of(term, problem.Boundaries, problem.Hours, import, more) is var cost and not 0)
            {
                parts.Add(new(term, cost));
                bill += cost;
            }
        }

        // A minimum bill looks at all the rest of its billing period.
        foreach (var least in terms.OfType<MinimumTerm>())
        {
            var extra = parts.Where(p => p.Term.BillingPeriod == least.BillingPeriod).Sum(p => p.Cost) + EnergyOf(problem, least.BillingPeriod, energy);
            counted[least] = extra;
            var missing = (double)(least.Minimum - least.Counted);
            var cost = Math.Max(0, missing - extra) - Math.Max(0, missing);
            if (cost != 0)
            {
                parts.Add(new(least, cost));
                bill += cost;
            }
        }

        return new(bill, carbon, parts) { Counted = counted };
    }

    private static double EnergyOf(HouseholdProblem problem, Interval period, double[] energy)
    {
        var sum = 0.0;
        for (var i = 0; i < energy.Length; i++)
        {
            sum += period.Contains(problem.Boundaries[i]) ? energy[i] : 0;
        }

        return sum;
    }
}

/// <summary>What charging adds.</summary>
/// <param name="Bill">To the bill: energy and terms. [currency]</param>
/// <param name="Carbon">At the carbon price, beside the bill. [currency]</param>
/// <param name="Terms">The part of each term that changes it; in <paramref name="Bill"/> already.</param>
public sealed record HouseholdCost(double Bill, double Carbon, IReadOnlyList<TermCost> Terms)
{
    /// <summary>Both. [currency]</summary>
    public double Total => Bill + Carbon;

    /// <summary>What counts more towards each minimum bill. [currency]</summary>
    internal IReadOnlyDictionary<MinimumTerm, double> Counted { get; init; } = new Dictionary<MinimumTerm, double>();
}

/// <summary>What charging adds to one term of the bill.</summary>
/// <param name="Term">The term.</param>
/// <param name="Cost">What it adds; below zero where energy prices had counted too much. [currency]</param>
public sealed record TermCost(PriceTerm Term, double Cost);
