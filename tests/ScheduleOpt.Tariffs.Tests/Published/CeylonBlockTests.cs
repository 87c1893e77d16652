using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// Ceylon Electricity Board tariff as shown by a third party: lankafreezone.com/mypage_35_Ceylon-Electricity-Board-Bill-Calculator.html
// 210 units in 31 days; blocks of 30, 30, 30, 30, 60 and the rest, each times 31/30; fuel adjustment 40 % of each block's amount.
// The fixed charge and the total were cut off in the copy that was read.
public class CeylonBlockTests
{
    private static readonly RatePlan Plan = Plans.Of("""
        timeZone: Asia/Colombo
        energyCharges:
          - name: Energy
            limitPer: month
            blocks:
              - { upToKwh: 30, pricePerKwh: 3.00 }
              - { upToKwh: 60, pricePerKwh: 4.70 }
              - { upToKwh: 90, pricePerKwh: 7.50 }
              - { upToKwh: 120, pricePerKwh: 21.00 }
              - { upToKwh: 180, pricePerKwh: 24.00 }
              - { pricePerKwh: 36.00 }
        taxes:
          - { name: Fuel adjustment, percent: 40, on: { parts: [energyCharge] } }
        proration: { month: thirtyDays }
        """);

    [Fact]
    public void ThirtyOneDays_210Units_BlocksScaledBy31Thirtieths()
    {
        var lines = Biller.Bill(Plan, Plans.WithUse(Plans.Midnight("Asia/Colombo", 2014, 1, 1), 31 * 24, (0, 210))).Periods.Single().Lines;
        var energy = lines.Where(l => l.Part == BillPart.EnergyCharge).ToArray();

        Assert.Equal([31m, 31, 31, 31, 62, 24], energy.Select(l => l.Quantity));
        Assert.Equal([130.20m, 203.98m, 325.50m, 911.40m, 2083.20m, 1209.60m], energy.Select(l => l.Amount * 1.40m));
        Assert.Equal(4863.88m, lines.Sum(l => l.Amount));
    }
}
