namespace ScheduleOpt.SecondBiller;

/// <summary>The few roundings that the rules name.</summary>
internal static class Rounded
{
    /// <summary>"A share of days, a number of months, and energy of a shared block (below) are rounded to 12 decimals (half to even)".</summary>
    public static decimal To12(decimal value) => Math.Round(value, 12, MidpointRounding.ToEven);

    /// <summary>"limits of blocks, kW and baselines to 6 decimals (half away from zero) unless the plan rounds them further".</summary>
    public static decimal To6(decimal value) => Math.Round(value, 6, MidpointRounding.AwayFromZero);

    /// <summary>"floor(e x k / n)" of whole numbers; energies are not negative.</summary>
    public static long Share(long energy, long part, long whole) => (long)((Int128)energy * part / whole);

    public static decimal Kwh(long micro) => micro / 1_000_000m;
}
