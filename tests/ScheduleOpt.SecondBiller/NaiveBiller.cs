using System.Text.Json.Nodes;

namespace ScheduleOpt.SecondBiller;

/// <summary>The rules of the bill, sentence by sentence from tariffs/README.md, for comparison with the real biller.</summary>
public static class NaiveBiller
{
    /// <summary>The bill of a question under a document that is known to be valid.</summary>
    /// <exception cref="RefusedException">The rules refuse the bill.</exception>
    public static Answer Bill(JsonObject plan, Question question)
    {
        var context = new Context(plan, question);
        var netted = Netting.Net(context);
        HourlyPricing.Refuse(context);
        var borders = Borders.Of(context);
        var past = question.Carried.Past.Concat(netted.Select(item => new PastUse(item.Start, item.End, item.Import))).ToList();
        var peaks = question.Carried.Peaks.ToList();
        var bankedEnergy = question.Carried.BankedEnergy.ToDictionary();
        var bankedMoney = question.Carried.BankedMoney;
        var isNetMetering = plan.Child("export")?.Text("kind") == "netMetering";
        // "demand and baselines see the import of step 2": the reduced import is kept beside it.
        var metered = netted.ToList();
        var statements = new List<Statement>();
        foreach (var period in BillingPeriod.Of(context))
        {
            if (isNetMetering)
            {
                EnergyBank.Apply(context, period, metered, bankedEnergy);
            }

            var sheet = new StatementSheet(context, period, Borders.Cut(context, period, metered, borders));
            MeasureDemand(sheet, netted, peaks);
            sheet.AddCustomerCharges();
            sheet.AddEnergy("energyCharges", Parts.EnergyCharge);
            sheet.AddDemandCharges();
            sheet.AddEnergy("adjustments", Parts.Adjustment);
            sheet.AddPercentages(Parts.Adjustment);
            sheet.AddCredits();
            sheet.AddRebates(past);
            sheet.AddExportCredits();
            sheet.AddMinimumBill("beforeTaxes");
            sheet.AddPercentages(Parts.Tax);
            sheet.AddMinimumBill("afterTaxes");
            bankedMoney = sheet.AddBankLines(bankedMoney);
            if (isNetMetering)
            {
                sheet.SettleEnergy(bankedEnergy);
            }

            sheet.Close();
            statements.Add(new(period.Start, period.End, sheet.Lines));
        }

        return new(statements, new() { Peaks = peaks, BankedEnergy = bankedEnergy, BankedMoney = bankedMoney, Past = past });
    }

    /// <summary>Every charge's kW is remembered before any is billed: a ratchet may look at a charge further down. "No covered days: no kW, and nothing remembered."</summary>
    private static void MeasureDemand(StatementSheet sheet, List<Metered> netted, List<Peak> peaks)
    {
        var charges = sheet.Context.There("demandCharges").Where(charge => sheet.Period.CoveredDays(sheet.Context, charge) > 0).ToList();
        var measured = charges.ConvertAll(charge => Demand.Measured(sheet.Context, sheet.Period, charge, netted));
        peaks.AddRange(charges.Zip(measured, (charge, kw) => new Peak(charge.Text("name")!, sheet.Period.Month, kw)));
        foreach (var (charge, kw) in charges.Zip(measured))
        {
            sheet.BilledKw[charge.Text("name")!] = Demand.Billed(charge, sheet.Period, kw, peaks);
        }
    }
}
