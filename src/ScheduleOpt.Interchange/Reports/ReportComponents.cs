using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Every component of a rate plan with its price, as it was billed.</summary>
internal static class ReportComponents
{
    /// <summary>Writes a table for each rate plan: the year's bill of its best combination, charge by charge.</summary>
    public static void Write(HtmlPage page, DecisionResult decided)
    {
        var currency = decided.Year.Currency;
        foreach (var cell in decided.Cells.GroupBy(c => c.Year.RatePlan.Id).Select(g => g.MinBy(c => c.Cost)!))
        {
            var charges = cell.Year.BillWithCar.Periods.SelectMany(p => p.Lines).GroupBy(l => (l.Part, l.Charge, l.Unit)).OrderBy(g => g.Key.Part);
            page.Table(
                $"{cell.Year.RatePlan.Name}, {currency}: the year's bill of house and car with {cell.Year.SetUp.Name}, {ReportWords.OfBehaviour(cell.Year.Behaviour?.Name)}"
                + (cell.Year.HousePlan is { } house ? $"; the house on {house.Name}" : ""),
                ["Part", "<Charge", ">Quantity", "Unit", ">Price", ">Amount"],
                charges.Select(g => (IReadOnlyList<string>)
                [
                    Of(g.Key.Part), g.Key.Charge, ReportWords.Plain((double)g.Sum(l => l.Quantity), 1), g.Key.Unit == "%" ? "% of other lines" : g.Key.Unit, Price(g), ReportWords.Figure(g.Sum(l => l.Amount), currency),
                ]));
        }
    }

    private static string Price(IEnumerable<BillLine> lines)
    {
        if (lines.Any(l => l.IsPercentage || l.Unit == "%" || l.Part == BillPart.Rounding))
        {
            return "–";
        }

        var (least, most) = (lines.Min(l => l.Price), lines.Max(l => l.Price));
        return least == most ? ReportWords.Plain((double)least, 6) : $"{ReportWords.Plain((double)least, 4)} to {ReportWords.Plain((double)most, 4)}";
    }

    private static string Of(BillPart part) => part switch
    {
        BillPart.CustomerCharge => "customer charge",
        BillPart.EnergyCharge => "energy charge",
        BillPart.DemandCharge => "demand charge",
        BillPart.Adjustment => "adjustment",
        BillPart.Credit => "credit",
        BillPart.ExportCredit => "export credit",
        BillPart.MinimumBill => "minimum bill",
        BillPart.Tax => "tax or rider",
        _ => "rounding",
    };
}
