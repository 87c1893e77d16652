namespace ScheduleOpt.Tariffs.Charges;

/// <summary>One block of an energy charge: the price of the use between the limit before it and its own.</summary>
/// <param name="UpToKwh">Upper limit, included, counted from the first kWh; none in the last block. [kWh per month or per day]</param>
/// <param name="PricePerKwh">Price in every period that <paramref name="PriceByPeriod"/> does not name; may be negative. [currency/kWh]</param>
/// <param name="PriceByPeriod">Prices by name of the period, where they differ inside one shared block; none where they don't. The use of a
/// block is then split over the periods in proportion to their use in the billing period.</param>
public sealed record Block(decimal? UpToKwh, decimal PricePerKwh, IReadOnlyDictionary<string, decimal>? PriceByPeriod = null)
{
    internal decimal PriceIn(string period) =>
        PriceByPeriod is not null && PriceByPeriod.TryGetValue(period, out var price) ? price : PricePerKwh;
}
