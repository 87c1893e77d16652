namespace ScheduleOpt.Tariffs.Charges;

/// <summary>The least that the counted parts of a billing period cost; what is missing is a line of its own.</summary>
/// <param name="Amount">Zero or more. [currency]</param>
/// <param name="Per">Month, day, year or billing period.</param>
/// <param name="Counts">The parts that count towards it.</param>
public sealed record MinimumBill(decimal Amount, ChargeUnit Per, IReadOnlyList<BillPart> Counts)
{
    /// <summary>Names of charges that count as well.</summary>
    public IReadOnlyList<string> Charges { get; init; } = [];

    /// <summary>Whether it is worked out after taxes; otherwise before, and taxes may be taken on it.</summary>
    public bool AfterTaxes { get; init; }

    /// <summary>Where the document says so.</summary>
    public DocumentPlace? Place { get; init; }

    /// <summary>Whether a line counts towards it.</summary>
    internal bool IsCounted(BillLine line) => Counts.Contains(line.Part) || (!line.IsPercentage && Charges.Contains(line.Charge));
}
