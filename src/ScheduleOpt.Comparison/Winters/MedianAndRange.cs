namespace ScheduleOpt.Comparison.Winters;

/// <summary>A figure over several weather years.</summary>
/// <param name="Median">The middle one; of an even number the mean of the middle two.</param>
/// <param name="Least">The least.</param>
/// <param name="Most">The most.</param>
public readonly record struct MedianAndRange(decimal Median, decimal Least, decimal Most)
{
    /// <summary>Works it out.</summary>
    /// <param name="values">At least one.</param>
    /// <exception cref="ArgumentException">No value.</exception>
    public static MedianAndRange Of(IEnumerable<decimal> values)
    {
        decimal[] sorted = [.. values.Order()];
        if (sorted.Length == 0)
        {
            throw new ArgumentException("A median needs at least one value.", nameof(values));
        }

        var middle = sorted.Length / 2;
        return new(sorted.Length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2, sorted[0], sorted[^1]);
    }
}
