namespace ScheduleOpt.Comparison.Year.Nights;

/// <summary>Normal draws that depend on nothing but a seed and two numbers: equal questions give equal forecasts in any order and on any thread.</summary>
internal static class Draws
{
    /// <summary>A draw of mean 0 and standard deviation 1.</summary>
    public static double Normal(int seed, int night, int day)
    {
        var state = Mixed(Mixed(Mixed(unchecked((ulong)seed)) ^ (ulong)night) ^ (ulong)day);
        var (a, b) = (Uniform(state), Uniform(Mixed(state)));

        // Box and Muller, Annals of Mathematical Statistics 29 (1958) 610-611.
        return Math.Sqrt(-2 * Math.Log(a)) * Math.Cos(2 * Math.PI * b);
    }

    // In (0, 1]: its logarithm is finite.
    private static double Uniform(ulong bits) => ((bits >> 11) + 1) * (1.0 / (1UL << 53));

    // SplitMix64: Steele, Lea and Flood, OOPSLA 2014, doi 10.1145/2660193.2660195.
    private static ulong Mixed(ulong x)
    {
        unchecked
        {
            x += 0x9E3779B97F4A7C15;
            x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9;
            x = (x ^ (x >> 27)) * 0x94D049BB133111EB;
            return x ^ (x >> 31);
        }
    }
}
