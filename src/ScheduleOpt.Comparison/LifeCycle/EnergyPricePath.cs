namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>How an energy price moves against general prices: its index in each year over the price actually charged at the base date.</summary>
/// <remarks>10 CFR 436.14(b) and (c): the base year's price is the one charged; later ones follow a projection of real prices. NIST publishes
/// such indices each year (Annual Supplement to Handbook 135, NISTIR 85-3273): give them year by year, or one yearly rate.</remarks>
public sealed record EnergyPricePath
{
    private readonly decimal[] indices;

    private EnergyPricePath(decimal escalation, decimal[] indices, string basis)
    {
        Escalation = escalation;
        this.indices = indices;
        Basis = basis;
    }

    /// <summary>Prices that move with general prices.</summary>
    public static EnergyPricePath Constant { get; } = new(0, [], "no real escalation");

    /// <summary>Real escalation a year, a fraction; after the last given index for a path of indices, where it is zero.</summary>
    public decimal Escalation { get; }

    /// <summary>Where it comes from, for the report.</summary>
    public string Basis { get; }

    /// <summary>One real rate a year: index(t) = (1 + e)^t.</summary>
    /// <param name="escalation">Real, a year; -0.10 to 0.10.</param>
    /// <param name="basis">Where it comes from.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is outside its range.</exception>
    public static EnergyPricePath Escalating(decimal escalation, string basis) =>
        escalation is >= -0.10m and <= 0.10m
            ? new(escalation, [], basis)
            : throw new ArgumentOutOfRangeException(nameof(escalation), escalation, "A real escalation must lie in -0.10 to 0.10 a year.");

    /// <summary>A published projection; after its last year the index stays.</summary>
    /// <param name="indices">Index of year 1, 2, ... over the base date's price; 1 to 40 values above 0 and up to 10.</param>
    /// <param name="basis">Where it comes from.</param>
    /// <exception cref="ArgumentException">No value, too many, or one outside its range.</exception>
    public static EnergyPricePath Projected(IEnumerable<decimal> indices, string basis)
    {
        decimal[] values = [.. indices];
        return values.Length is >= 1 and <= StudyPeriod.MostYears && values.All(i => i is > 0 and <= 10)
            ? new(0, values, basis)
            : throw new ArgumentException("A price projection needs 1 to 40 indices, each above 0 and at most 10.", nameof(indices));
    }

    /// <summary>The price in a year over the base date's.</summary>
    /// <param name="year">0 (the base date) or later.</param>
    public decimal Index(int year)
    {
        if (indices.Length > 0)
        {
            return year == 0 ? 1 : indices[Math.Min(year, indices.Length) - 1];
        }

        var index = 1m;
        for (var t = 0; t < year; t++)
        {
            index *= 1 + Escalation;
        }

        return index;
    }
}
