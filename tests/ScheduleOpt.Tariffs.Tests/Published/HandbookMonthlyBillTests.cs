namespace ScheduleOpt.Tariffs.Tests.Published;

// Energy management handbook, chapter 18.5 "Calculation of a monthly bill" (civilengineeringhandbook.tk/energy-management), rate of Public Service
// Electric & Gas: customer $3.74; energy $0.09444; adjustment -$0.017192 per kWh; 17,588 kWh in June. The demand line ($262.34 for 30 kW, block prices
// not on the stored page) is left out: 1,624.72 - 262.34 = 1,362.38.
public class HandbookMonthlyBillTests
{
    [Fact]
    public void Month_NegativeAdjustment_IsTakenOff()
    {
        var plan = Plans.Of("""
            customerCharges:
              - { name: Customer charge, amount: 3.74, per: month }
            energyCharges:
              - { name: Energy, pricePerKwh: 0.09444 }
            adjustments:
              - { name: Adjustment, pricePerKwh: -0.017192 }
            """);

        var bill = Biller.Bill(plan, Plans.OneMonth(17_588));

        Assert.Equal(1661.01m, bill.TotalOf(BillPart.EnergyCharge));
        Assert.Equal(-302.37m, bill.TotalOf(BillPart.Adjustment));
        Assert.Equal(1624.72m, bill.Total + 262.34m);
    }
}
