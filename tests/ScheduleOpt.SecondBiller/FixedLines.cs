namespace ScheduleOpt.SecondBiller;

/// <summary>Customer charges, demand charges, credits and minimum bills.</summary>
internal static class FixedLines
{
    /// <summary>"Customer charges. amount x units ... With `perServiceKw` times the service's kW as well."</summary>
    public static void AddCustomerCharges(this StatementSheet sheet)
    {
        foreach (var charge in sheet.Context.There("customerCharges").Where(sheet.InBand))
        {
            var covered = sheet.Period.CoveredDays(sheet.Context, charge);
            if (covered > 0)
            {
                var amount = charge.Number("amount")!.Value * sheet.Units(charge.Text("per")!, covered);
                var service = charge.Flag("perServiceKw") ? sheet.Context.Question.ServiceKw ?? sheet.Context.Plan.Number("serviceKw")!.Value : 1;
                sheet.Add(Parts.CustomerCharge, charge.Text("name")!, amount * service);
            }
        }
    }

    /// <summary>"Amount = billed kW x price (or by blocks, limits included) x 1, months (x covered days / days unless all are covered) or covered days, by `per`".</summary>
    public static void AddDemandCharges(this StatementSheet sheet)
    {
        foreach (var charge in sheet.Context.There("demandCharges").Where(charge => sheet.BilledKw.ContainsKey(charge.Text("name")!)))
        {
            var kw = sheet.BilledKw[charge.Text("name")!];
            var covered = sheet.Period.CoveredDays(sheet.Context, charge);
            var factor = charge.Text("per") is "month" or "day" ? sheet.Units(charge.Text("per")!, covered) : 1;
            if (charge.Number("pricePerKw") is { } price)
            {
                sheet.Add(Parts.DemandCharge, charge.Text("name")!, kw * (price * factor));
                continue;
            }

            decimal below = 0;
            foreach (var block in charge.List("blocks"))
            {
                var limit = Math.Min(kw, block.Number("upToKw") ?? kw);
                if (limit > below)
                {
                    sheet.Add(Parts.DemandCharge, charge.Text("name")!, (limit - below) * (block.Number("pricePerKw")!.Value * factor));
                    below = limit;
                }
            }
        }
    }

    /// <summary>"Credits: - amount x (covered use, for `kwh`; otherwise units as for customer charges), under `useBand`."</summary>
    public static void AddCredits(this StatementSheet sheet)
    {
        foreach (var credit in sheet.Context.There("credits").Where(sheet.InBand))
        {
            var covered = sheet.Period.CoveredDays(sheet.Context, credit);
            // "A charge per kWh (... credit per kWh ...) with covered use always has a line ... Of every other charge: no covered days, no line and no trace."
            var units = credit.Text("per") == "kwh"
                ? Rounded.Kwh(sheet.Pieces.Where(piece => sheet.Period.Covers(credit, piece)).Sum(piece => piece.Import))
                : covered > 0 ? sheet.Units(credit.Text("per")!, covered) : 0;
            sheet.Add(Parts.Credit, credit.Text("name")!, -credit.Number("amount")!.Value * units);
        }
    }

    /// <summary>"the amount (month, day, year, billingPeriod units of the whole billing period) less the lines that count, if positive"</summary>
    public static void AddMinimumBill(this StatementSheet sheet, string stage)
    {
        if (sheet.Context.Plan.Child("minimumBill") is { } minimum && (minimum.Text("stage") ?? "beforeTaxes") == stage)
        {
            var missing = minimum.Number("amount")!.Value * sheet.WholeUnits(minimum.Text("per")!) - sheet.SumOf(minimum.Names("counts")!, minimum.Names("charges"));
            if (missing > 0)
            {
                sheet.Add(Parts.MinimumBill, "", missing);
            }
        }
    }
}
