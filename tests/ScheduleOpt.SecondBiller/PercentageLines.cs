using System.Text.Json.Nodes;

namespace ScheduleOpt.SecondBiller;

/// <summary>Taxes and riders.</summary>
internal static class PercentageLines
{
    public static void AddPercentages(this StatementSheet sheet, string kind)
    {
        foreach (var tax in sheet.Context.There("taxes").Where(tax => (tax.Text("as") ?? "tax") == kind))
        {
            var percent = tax.Number("percent")!.Value;
            var on = Base(sheet, tax.Child("on")!);

            // "percent x base / 100, with `grossUp` the percentage is first worked out, 100 x percent / (100 - percent), and rounded to 12 decimals (half to even)"
            percent = tax.Flag("grossUp") ? Rounded.To12(100 * percent / (100 - percent)) : percent;
            var amount = percent * (on / 100);

            // "With `from`/`until` times their days / days (12 decimals)."
            var days = sheet.Period.DaysOnDates(tax);
            if (days != sheet.Period.DayCount)
            {
                amount *= Rounded.To12(days / sheet.Period.DayCount);
            }

            // "Then not more than `orPerKwh` x use of the billing period, then not more than `atMost` (its units of the whole billing period)."
            if (tax.Number("orPerKwh") is { } perKwh)
            {
                amount = Math.Min(amount, perKwh * sheet.Use);
            }

            if (tax.Child("atMost") is { } most)
            {
                amount = Math.Min(amount, most.Number("amount")!.Value * sheet.WholeUnits(most.Text("per")!));
            }

            sheet.Add(kind, tax.Text("name")!, amount, isPercentage: true);
        }
    }

    /// <summary>"The base is the sum of the lines, as they stand, whose part is in `parts`, or whose charge (by name) is in `charges`, or whose layer is in `layers`,
    /// or whose percentage is in `taxes`, each line once."</summary>
    private static decimal Base(StatementSheet sheet, JsonObject on)
    {
        string[] parts = on.Names("parts") ?? [], charges = on.Names("charges") ?? [], layers = on.Names("layers") ?? [], taxes = on.Names("taxes") ?? [];
        return sheet.Lines.Where(line => parts.Contains(line.Part)
            || (!line.IsPercentage && charges.Contains(line.Name))
            || (line.Layer is { } layer && layers.Contains(layer))
            || (line.IsPercentage && taxes.Contains(line.Name))).Sum(line => line.Amount);
    }
}
