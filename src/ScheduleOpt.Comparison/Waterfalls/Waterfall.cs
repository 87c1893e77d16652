using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Waterfalls;

/// <summary>Why a second cell costs another amount than a first: the difference in steps that add up to it, to the cent.</summary>
/// <remarks>
/// Losses are priced at the mean of what a kWh of the car costs in energy charges in both cells; what that takes or gives is taken from the
/// car's energy, so the split between the two is a convention and their sum is not. Each step is the difference of two rounded running sums:
/// the steps add up to the rounded difference whatever the rounding of each.
/// </remarks>
/// <param name="First">The first.</param>
/// <param name="Second">The second.</param>
/// <param name="Steps">All parts in order, those of zero included.</param>
public sealed record Waterfall(WaterfallSide First, WaterfallSide Second, IReadOnlyList<WaterfallStep> Steps)
{
    /// <summary>What the second costs more, to the cent. [currency a year]</summary>
    public decimal Difference => Cash.Rounded(Second.Cost - First.Cost);

    /// <summary>Works it out.</summary>
    public static Waterfall Of(WaterfallSide first, WaterfallSide second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        var (a, b) = (first.Cell, second.Cell);
        var losses = ((decimal)b.Energy.HomeLossKwh - (decimal)a.Energy.HomeLossKwh) * PricePerKwh(a, b);
        (WaterfallPart, decimal)[] exact =
        [
            (WaterfallPart.HouseEnergy, b.BillWithoutCar.TotalOf(BillPart.EnergyCharge) - a.BillWithoutCar.TotalOf(BillPart.EnergyCharge)),
            (WaterfallPart.CarEnergy, CarEnergy(b) - CarEnergy(a) - losses),
            (WaterfallPart.Losses, losses),
            (WaterfallPart.CustomerCharge, Of(b, BillPart.CustomerCharge) - Of(a, BillPart.CustomerCharge)),
            (WaterfallPart.DemandCharge, Of(b, BillPart.DemandCharge) - Of(a, BillPart.DemandCharge)),
            (WaterfallPart.OtherCharges, Other(b) - Other(a)),
            (WaterfallPart.AwayCharging, b.Away.Cost - a.Away.Cost),
            (WaterfallPart.EndCorrection, b.EndCorrection.Cost - a.EndCorrection.Cost),
            (WaterfallPart.Install, second.InstallPerYear - first.InstallPerYear),
        ];
        var steps = new List<WaterfallStep>(exact.Length);
        var (sum, shown) = (0m, 0m);
        foreach (var (part, amount) in exact)
        {
            sum += amount;
            var rounded = Cash.Rounded(sum);
            steps.Add(new WaterfallStep(part, rounded - shown));
            shown = rounded;
        }

        return new Waterfall(first, second, steps);
    }

    private static decimal Of(YearCell cell, BillPart part) => cell.BillWithCar.TotalOf(part);

    private static decimal CarEnergy(YearCell cell) => Of(cell, BillPart.EnergyCharge) - cell.BillWithoutCar.TotalOf(BillPart.EnergyCharge);

    private static decimal Other(YearCell cell) =>
        cell.BillWithCar.Total - Of(cell, BillPart.EnergyCharge) - Of(cell, BillPart.CustomerCharge) - Of(cell, BillPart.DemandCharge);

    private static decimal PricePerKwh(YearCell a, YearCell b)
    {
        decimal[] prices = [.. new[] { a, b }.Where(c => c.Energy.HomeWallKwh > 1e-6).Select(c => CarEnergy(c) / (decimal)c.Energy.HomeWallKwh)];
        return prices.Length == 0 ? 0 : prices.Sum() / prices.Length;
    }
}
