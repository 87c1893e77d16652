namespace ScheduleOpt.Tariffs.Tests.Published;

// City of Seymour (municipal utility), "Billing Calculation Examples", residential electricity bill comparison page, undated:
// cityofseymour.org/departments/utilities/residential-electricity/bill-comparison/
// Winter: first 250 kWh $0.064, next 450 $0.049, over 700 $0.0446; power cost $0.085 on all kWh; base charge $7.50; city sales tax 1 % of everything.
public class SeymourDecliningBlockTests
{
    private static readonly RatePlan Plan = Plans.Of("""
        customerCharges:
          - { name: Base charge, amount: 7.50, per: month }
        energyCharges:
          - name: Energy
            limitPer: month
            blocks:
              - { upToKwh: 250, pricePerKwh: 0.064 }
              - { upToKwh: 700, pricePerKwh: 0.049 }
              - { pricePerKwh: 0.0446 }
        adjustments:
          - { name: Power cost, pricePerKwh: 0.085 }
        taxes:
          - { name: City sales tax, percent: 1, on: { parts: [customerCharge, energyCharge, adjustment] } }
        """);

    [Fact]
    public void WinterMonth_1200Kwh_EveryPrintedLineAndTheTotal()
    {
        var bill = Biller.Bill(Plan, Plans.OneMonth(1200));

        Assert.Equal([7.50m, 16.00m, 22.05m, 22.30m, 102.00m, 1.70m], bill.Periods.Single().Lines.Select(l => l.Amount));
        Assert.Equal(169.85m, bill.Total - bill.TotalOf(BillPart.Tax));
        Assert.Equal(171.55m, bill.Total);
    }
}
