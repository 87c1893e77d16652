namespace ScheduleOpt.Core.Homes.Panels;

/// <summary>Several charging units that share one branch circuit under load management.</summary>
public static class ManagedBranch
{
    /// <summary>The most that all units together may draw. [A]</summary>
    /// <remarks>NFPA 70 (NEC) 2023, 625.42: the managed total is a continuous load, 80 % of the breaker. Three units of 30 A on 100 A: 80 A.</remarks>
    /// <param name="breakerA">Rating of the branch circuit's breaker; above 0. [A]</param>
    /// <param name="unitsA">Current of each unit; zero or more. [A]</param>
    /// <exception cref="ArgumentOutOfRangeException">A rating or a current outside its range.</exception>
    public static double MostTotalA(double breakerA, IReadOnlyList<double> unitsA)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(breakerA);
        ArgumentNullException.ThrowIfNull(unitsA);
        foreach (var unit in unitsA)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(unit, nameof(unitsA));
        }

        var supply = new Supply { VoltageV = 240, BreakerA = breakerA, Rule = ContinuousRatingRule.NecContinuousLoad };
        return Math.Min(unitsA.Sum(), supply.ContinuousRatingA);
    }
}
