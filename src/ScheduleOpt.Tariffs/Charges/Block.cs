namespace ScheduleOpt.Tariffs.Charges;

/// <summary>One block of an energy charge: the price of the use between the limit before it and its own.</summary>
/// <param name="UpToKwh">Upper limit, included, counted from the first kWh. Where a block has several limits the lowest holds; the last block has none.
/// [kWh per unit of the charge's limits]</param>
/// <param name="PricePerKwh">Price in every period that <paramref name="PriceByPeriod"/> does not name; may be negative. [currency/kWh]</param>
/// <param name="PriceByPeriod">Prices by name of the period, where they differ inside one shared block; none where they don't.</param>
public sealed record Block(decimal? UpToKwh, decimal PricePerKwh, IReadOnlyDictionary<string, decimal>? PriceByPeriod = null)
{
    /// <summary>Upper limit as a multiple of the charge's allowance; gone once choices are made.</summary>
    public decimal? UpToAllowance { get; init; }

    /// <summary>Upper limit for each kW of billed demand. [kWh/kW]</summary>
    public decimal? UpToKwhPerKw { get; init; }

    internal bool IsLimited => UpToKwh is not null || UpToAllowance is not null || UpToKwhPerKw is not null;

    internal decimal PriceIn(string period) =>
        PriceByPeriod is not null && PriceByPeriod.TryGetValue(period, out var price) ? price : PricePerKwh;
}
