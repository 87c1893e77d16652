using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>The bank of export credit, in money or in kWh, and its settlement.</summary>
internal static class CreditBank
{
    private static readonly string[] AllParts =
        [Parts.CustomerCharge, Parts.EnergyCharge, Parts.DemandCharge, Parts.Adjustment, Parts.Credit, Parts.MinimumBill, Parts.Tax];

    /// <summary>The bank after this billing period.</summary>
    public static decimal AddBankLines(this StatementSheet sheet, decimal bank)
    {
        var export = sheet.Context.Plan.Child("export");
        if (export?.Text("kind") != "netBilling" || export.Text("creditUse") is not ("bankThisBill" or "bankNextBill"))
        {
            return bank;
        }

        // "E = what step 6 took off (as a positive amount), B = bank from before, D = sum of the lines of the parts in `offsets`, at least 0."
        var earned = -sheet.SumOf([Parts.ExportCredit]);
        var due = Math.Max(0, sheet.SumOf(export.Names("offsets") ?? AllParts));

        // "Usable A = B + E or, for bankNextBill, B. Used U = min(A, D)."
        var usable = export.Text("creditUse") == "bankThisBill" ? bank + earned : bank;
        var used = Math.Min(usable, due);

        // "A line of E - U (credit put into the bank; negative: taken from it); the bank is then B + E - U."
        sheet.Add(Parts.ExportCredit, "", earned - used);
        bank += earned - used;
        if (Settles(sheet))
        {
            // "a line of - bank x payOutPercent / 100, and the bank is empty"
            sheet.Add(Parts.ExportCredit, "", -bank * (export.Number("payOutPercent") ?? 0) / 100);
            bank = 0;
        }

        return bank;
    }

    /// <summary>"With netMetering the settlement is - (all banked kWh) x payOutPerKwh, a line if there are any."</summary>
    public static void SettleEnergy(this StatementSheet sheet, Dictionary<string, long> bank)
    {
        if (Settles(sheet))
        {
            sheet.Add(Parts.ExportCredit, "", -Rounded.Kwh(bank.Values.Sum()) * (sheet.Context.Plan.Child("export")!.Number("payOutPerKwh") ?? 0));
            bank.Clear();
        }
    }

    /// <summary>"In the billing period that holds the first instant of the last day of `settlementMonth`".</summary>
    private static bool Settles(StatementSheet sheet) => sheet.Context.Plan.Child("export")!.Integer("settlementMonth") is { } month
        && sheet.Period.Days.Any(day => day.Date.Month == month && day.Date == day.Date.With(DateAdjusters.EndOfMonth)
            && sheet.Context.Legal.StartOf(day.Date) >= sheet.Period.Start);
}
