using ScheduleOpt.Tariffs.Billing;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs.Prices;

/// <summary>What the percentages of a plan make of one more unit of money on a line, in one billing period.</summary>
internal sealed class PercentageStack
{
    /// <summary>The line of what is missing to the minimum bill.</summary>
    public const string MinimumLine = "Missing to the minimum bill";

    private readonly List<(Tax Tax, decimal Share, PercentageLimb Limb)> percentages;

    /// <param name="outcomes">How each percentage came out at the expected use, in the order worked out.</param>
    public PercentageStack(IEnumerable<PercentageOutcome> outcomes)
    {
        percentages = [.. outcomes.Select(o => (o.Tax, o.Share, o.Limb))];
        foreach (var (tax, _, limb) in percentages.Where(p => p.Limb == PercentageLimb.PerKwh))
        {
            PerKwh += tax.OrPerKwh!.Value * Factor(Line(tax), Rank(tax) + 1);
        }
    }

    /// <summary>What percentages charge for each kWh in place of a percentage. [currency/kWh]</summary>
    public decimal PerKwh { get; }

    /// <summary>The factor on a charge.</summary>
    public decimal Of(BillPart part, string charge, string? layer = null) => Factor(new(part, charge, 0, "", 0, 0) { Layer = layer }, 0);

    /// <summary>What of one more unit on a charge counts towards a minimum bill, percentages that count included.</summary>
    public decimal CountedOf(MinimumBill minimum, BillPart part, string charge, string? layer = null) =>
        Lines(new(part, charge, 0, "", 0, 0) { Layer = layer }, 0, minimum.AfterTaxes).Where(l => minimum.IsCounted(l.Line)).Sum(l => l.Amount);

    private decimal Factor(BillLine line, int from) => Lines(line, from, true).Sum(l => l.Amount);

    private List<(BillLine Line, decimal Amount)> Lines(BillLine line, int from, bool withTaxes)
    {
        var lines = new List<(BillLine Line, decimal Amount)> { (line, 1) };
        for (var i = from; i < percentages.Count; i++)
        {
            var (tax, share, limb) = percentages[i];
            // Riders stand before taxes: a line that comes later is on no rider.
            if (limb == PercentageLimb.Percent && (withTaxes || tax.IsRider)
                && !(tax.IsRider && line.Part is BillPart.Credit or BillPart.ExportCredit or BillPart.MinimumBill))
            {
                var on = lines.Where(l => tax.IsOn(l.Line)).Sum(l => l.Amount);
                lines.Add((Line(tax), on * share * tax.Charged / 100));
            }
        }

        return lines;
    }

    private int Rank(Tax tax) => percentages.FindIndex(p => p.Tax == tax);

    private static BillLine Line(Tax tax) => new(tax.IsRider ? BillPart.Adjustment : BillPart.Tax, tax.Name, 0, "%", 0, 0) { IsPercentage = true };
}
