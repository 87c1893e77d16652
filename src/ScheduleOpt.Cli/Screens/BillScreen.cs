using System.Globalization;
using NodaTime;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Tariffs;
using Spectre.Console;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Shows a bill: every line where there are few billing periods, else a row for each and the totals by part.</summary>
internal sealed class BillScreen(Screen screen, BillRequest request, Bill bill)
{
    private const int MostInFull = 2;
    private static readonly Style Sum = new(decoration: Decoration.Bold);

    /// <summary>Puts the bill on the page, without cautions.</summary>
    public void Draw()
    {
        var plan = request.RatePlan;
        screen.Say($"Rate plan: {plan.Name}, {plan.Utility}.");
        if (request.Input.Choices.Count > 0)
        {
            screen.Say($"Choices: {string.Join(", ", request.Input.Choices.Select(c => $"{c.Key} {c.Value}"))}.");
        }

        screen.Say(
            $"{request.Series.Count} readings of {Figures.Plain(request.Series.Interval.TotalMinutes)} min, "
            + $"{Figures.Kwh((double)request.Series.TotalKilowattHours)}, from {Day(request.Series.Start)} to {LastDay(request.Series.End)}.");
        if (bill.Periods.Count <= MostInFull)
        {
            screen.Blank();
            foreach (var period in bill.Periods)
            {
                InFull(period);
            }
        }
        else
        {
            Overview();
        }

        screen.Say($"Total: {Figures.Money(bill.Total, bill.Currency)}", "bold");
        var warnings = request.Warnings.Concat(bill.Warnings).ToArray();
        if (warnings.Length > 0)
        {
            screen.Blank();
            screen.List(warnings);
        }
    }

    private void InFull(BillStatement period)
    {
        screen.Line($"{Day(period.Start)} to {LastDay(period.End)}, {Figures.Plain((double)period.Days)} days, {Figures.Kwh((double)period.EnergyKwh)}");
        var table = Columns.Of("Line", ">Quantity", "Unit", ">Price", $">{bill.Currency}");
        foreach (var line in period.Lines)
        {
            table.Row(
                null,
                line.Description,
                Math.Round(line.Quantity, 3).ToString("#,0.###", CultureInfo.InvariantCulture),
                line.Unit,
                Math.Round(line.Price, 5).ToString("0.00###", CultureInfo.InvariantCulture),
                Figures.Amount(line.Amount));
        }

        table.Row(Sum, "Sum", "", "", "", Figures.Amount(period.Total));
        screen.Draw(table);
    }

    private void Overview()
    {
        var table = Columns.Of("Billing period", ">kWh", $">{bill.Currency}");
        foreach (var period in bill.Periods)
        {
            table.Row(
                null,
                $"{Day(period.Start)} to {LastDay(period.End)}",
                Figures.Number((double)period.EnergyKwh),
                Figures.Amount(period.Total));
        }

        screen.Draw(table);
        var parts = Columns.Of("Part of the bill", $">{bill.Currency}");
        foreach (var (part, amount) in bill.TotalsByPart())
        {
            parts.Row(null, NameOf(part), Figures.Amount(amount));
        }

        screen.Draw(parts);
    }

    private static string NameOf(BillPart part) => part switch
    {
        BillPart.CustomerCharge => "Customer charge",
        BillPart.EnergyCharge => "Energy charge",
        BillPart.DemandCharge => "Demand charge",
        BillPart.Adjustment => "Adjustments",
        BillPart.Credit => "Credits",
        BillPart.ExportCredit => "Export credit",
        BillPart.MinimumBill => "Minimum bill",
        BillPart.Tax => "Taxes",
        _ => "Rounding",
    };

    private string Day(Instant instant) => instant.InZone(request.RatePlan.Zone).Date.ToString("d MMM uuuu", CultureInfo.InvariantCulture);

    // The end itself is excluded: a period that ends at midnight ends on the day before.
    private string LastDay(Instant end) => Day(end - Duration.Epsilon);
}
