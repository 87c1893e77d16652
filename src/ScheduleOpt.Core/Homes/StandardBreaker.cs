namespace ScheduleOpt.Core.Homes;

/// <summary>The breaker sizes that are made, and the smallest one for a continuous current.</summary>
public static class StandardBreaker
{
    private static readonly int[] SizesA = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125];

    /// <summary>The next larger standard breaker. [A]</summary>
    /// <returns>The size, or null from 125 A on.</returns>
    public static int? Above(double breakerA)
    {
        foreach (var size in SizesA)
        {
            if (size > breakerA + 1e-9)
            {
                return size;
            }
        }

        return null;
    }

    /// <summary>The smallest standard breaker of at least 125 % of a continuous current. [A]</summary>
    /// <remarks>NFPA 70 (NEC) 2023, sections 210.20(A) and 240.6(A).</remarks>
    /// <returns>The size, or null above 100 A continuous.</returns>
    public static int? For(double continuousA)
    {
        foreach (var size in SizesA)
        {
            if (size + 1e-9 >= 1.25 * continuousA)
            {
                return size;
            }
        }

        return null;
    }
}
