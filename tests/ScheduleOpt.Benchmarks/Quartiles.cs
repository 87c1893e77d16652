namespace ScheduleOpt.Benchmarks;

/// <summary>Median and interquartile range of repeated measurements.</summary>
internal sealed record Quartiles(double Lower, double Median, double Upper)
{
    public static Quartiles Of(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        return new(At(sorted, 0.25), At(sorted, 0.5), At(sorted, 0.75));
    }

    public static double At(double[] sorted, double share)
    {
        var position = share * (sorted.Length - 1);
        var below = (int)position;
        return below + 1 < sorted.Length
            ? sorted[below] + ((position - below) * (sorted[below + 1] - sorted[below]))
            : sorted[below];
    }

    public override string ToString() => $"{Median,9:F3} ({Lower:F3}-{Upper:F3})";
}
