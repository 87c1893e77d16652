using NodaTime;

namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A percentage of other lines: a tax, a rider, or (negative) a rebate.</summary>
/// <param name="Name">What the bill calls it.</param>
/// <param name="Percent">-100 to 100. [%]</param>
/// <param name="Parts">The parts of the bill it is taken on.</param>
/// <param name="Taxes">Names of earlier percentages it is taken on as well (tax on tax).</param>
public sealed record Tax(string Name, decimal Percent, IReadOnlyList<BillPart> Parts, IReadOnlyList<string> Taxes)
{
    private const int Decimals = 12;

    /// <summary>Options and the choices under which it is there; none: always.</summary>
    public Condition? When { get; init; }

    /// <summary>Names of charges it is taken on as well.</summary>
    public IReadOnlyList<string> Charges { get; init; } = [];

    /// <summary>Layers of energy charges it is taken on as well.</summary>
    public IReadOnlyList<string> Layers { get; init; } = [];

    /// <summary>Whether it is a rider, worked out with the adjustments; otherwise a tax.</summary>
    public bool IsRider { get; init; }

    /// <summary>Whether it is charged as percent / (100 - percent).</summary>
    public bool GrossUp { get; init; }

    /// <summary>Not more than this for each kWh of the billing period; none for no limit. [currency/kWh]</summary>
    public decimal? OrPerKwh { get; init; }

    /// <summary>Not more than this; none for no limit. [currency]</summary>
    public decimal? AtMost { get; init; }

    /// <summary>Unit of <see cref="AtMost"/>.</summary>
    public ChargeUnit AtMostPer { get; init; } = ChargeUnit.BillingPeriod;

    /// <summary>First date on which it holds; none where it is not bounded.</summary>
    public LocalDate? From { get; init; }

    /// <summary>Last date on which it holds; none where it is not bounded.</summary>
    public LocalDate? Until { get; init; }

    /// <summary>Where the document says so.</summary>
    public DocumentPlace? Place { get; init; }

    /// <summary>The percentage that is charged. [%]</summary>
    internal decimal Charged => GrossUp ? decimal.Round(100 * Percent / (100 - Percent), Decimals) : Percent;

    internal bool CoversDate(LocalDate date) => (From is null || date >= From) && (Until is null || date <= Until);

    /// <summary>Whether a line belongs to its base.</summary>
    internal bool IsOn(BillLine line) =>
        (line.IsPercentage && Taxes.Contains(line.Charge))
        || Parts.Contains(line.Part)
        || (!line.IsPercentage && Charges.Contains(line.Charge))
        || (line.Layer is { } layer && Layers.Contains(layer));
}
