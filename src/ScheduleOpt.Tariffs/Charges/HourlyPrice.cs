namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A price that follows a price series: multiplier x price + adder, kept within limits.</summary>
/// <param name="Series">Name of the series, which is given beside the plan.</param>
/// <param name="Missing">What holds where the series has no price.</param>
public sealed record HourlyPrice(string Series, MissingPrice Missing)
{
    /// <summary>Factor on the price.</summary>
    public decimal Multiplier { get; init; } = 1;

    /// <summary>Added to the price. [currency/kWh]</summary>
    public decimal Adder { get; init; }

    /// <summary>Lowest price charged; none for no limit. [currency/kWh]</summary>
    public decimal? AtLeast { get; init; }

    /// <summary>Highest price charged; none for no limit. [currency/kWh]</summary>
    public decimal? AtMost { get; init; }

    /// <summary>Stands in for a missing price of the series where <see cref="Missing"/> says so. [currency/kWh]</summary>
    public decimal MissingAt { get; init; }

    /// <summary>What is charged at a price of the series.</summary>
    internal decimal Of(decimal price)
    {
        var charged = (Multiplier * price) + Adder;
        charged = AtLeast is { } least && charged < least ? least : charged;
        return AtMost is { } most && charged > most ? most : charged;
    }
}

/// <summary>What holds where a price series has no price.</summary>
public enum MissingPrice
{
    /// <summary>No bill is made.</summary>
    Refuse,

    /// <summary>The latest earlier price.</summary>
    Previous,

    /// <summary>The price of 24 hours before, or of 48 hours, up to 168.</summary>
    DayBefore,

    /// <summary>A stated price.</summary>
    Stated,
}
