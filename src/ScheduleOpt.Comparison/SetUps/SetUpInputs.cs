namespace ScheduleOpt.Comparison.SetUps;

/// <summary>A household's own figures for a ready-made set-up; all of them may be left out.</summary>
public sealed record SetUpInputs
{
    private const decimal MostCost = 1_000_000;

    /// <summary>Nothing of its own.</summary>
    public static SetUpInputs None { get; } = new();

    /// <summary>ISO 4217 code of the household's money. Published ranges are in USD and are not converted: in another currency only the
    /// household's own figures count.</summary>
    public string Currency { get; init; } = "USD";

    /// <summary>Its own first costs by the name of the part; 0 to 1,000,000. [currency]</summary>
    public IReadOnlyDictionary<string, decimal> FirstCost { get; init; } = new Dictionary<string, decimal>();

    /// <summary>The optional parts that it needs, by name.</summary>
    public IReadOnlyList<string> Options { get; init; } = [];

    /// <summary>How long the equipment lasts; 1 to 40; none: as long as the study period. [a]</summary>
    public int? LifetimeYears { get; init; }

    /// <summary>What the unit takes while no car charges; 0 to 100. [W]</summary>
    public decimal? StandbyW { get; init; }

    internal void ThrowIfOutside(IReadOnlyList<FirstCostItem> items)
    {
        var known = items.Select(i => i.Name).ToArray();
        if (FirstCost.Keys.Concat(Options).FirstOrDefault(n => !known.Contains(n)) is { } unknown)
        {
            throw new ArgumentException($"'{unknown}' is no part of this set-up's first cost.");
        }

        if (FirstCost.Values.Any(v => v is < 0 or > MostCost))
        {
            throw new ArgumentException("A first cost must be 0 to 1,000,000.");
        }

        if (LifetimeYears is < 1 or > 40 || StandbyW is < 0 or > 100)
        {
            throw new ArgumentException("A lifetime must be 1 to 40 years and standby 0 to 100 W.");
        }
    }
}
