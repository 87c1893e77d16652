namespace ScheduleOpt.Tariffs.Tests.Published;

// City utility "jcpb", "How to Calculate Your Bill - Residential Example", undated: jcpb.com/yourHome/meters/calcBill.asp
// $0.0951/kWh; availability fee $18.48; readings 9975 - 8865. The printed grand total was cut off in the copy that was read: 124.04 is ours.
public class JcpbFlatTests
{
    [Fact]
    public void Month_1110Kwh_EnergyLineAndFee()
    {
        var plan = Plans.Of("""
            customerCharges:
              - { name: Availability fee, amount: 18.48, per: month }
            energyCharges:
              - { name: Energy, pricePerKwh: 0.0951 }
            """);

        var bill = Biller.Bill(plan, Plans.OneMonth(9975 - 8865));

        Assert.Equal(105.56m, bill.TotalOf(BillPart.EnergyCharge));
        Assert.Equal(18.48m, bill.TotalOf(BillPart.CustomerCharge));
        Assert.Equal(124.04m, bill.Total);
    }
}
