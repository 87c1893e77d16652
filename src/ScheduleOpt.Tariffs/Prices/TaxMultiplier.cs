namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What the percentages of a plan make of one unit of money on a line.</summary>
internal static class TaxMultiplier
{
    /// <summary>The factor by part: 1 for a part that nothing is taken on.</summary>
    public static Dictionary<BillPart, decimal> Of(RatePlan plan) =>
        Enum.GetValues<BillPart>().ToDictionary(part => part, part =>
        {
            var taxes = new Dictionary<string, decimal>();
            foreach (var tax in plan.Taxes)
            {
                var on = (tax.Parts.Contains(part) ? 1 : 0) + tax.Taxes.Sum(earlier => taxes.GetValueOrDefault(earlier));
                taxes[tax.Name] = on * tax.Percent / 100;
            }

            return 1 + taxes.Values.Sum();
        });
}
