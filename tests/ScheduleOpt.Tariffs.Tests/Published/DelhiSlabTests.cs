using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// BSES (Delhi), explanation of a bill, quoted at alumniagri.in/task/...18934246 (2014): fixed Rs 25 per kW and month x 6 kW x slab, slab = days/31;
// surcharge 8 % on energy and on the fixed charge. 24 July to 6 August 2014, both counted (14 days); energy Rs 5,029.05.
// Only the energy's amount is printed: a price of Rs 1 and as many kWh stand for it. July and August both have 31 days.
public class DelhiSlabTests
{
    [Fact]
    public void FourteenDays_OfMonthsOf31Days_SlabFixedChargeAndSurcharges()
    {
        var plan = Plans.Of("""
            timeZone: Asia/Kolkata
            customerCharges:
              - { name: Fixed charge for 6 kW, amount: 150, per: month }
            energyCharges:
              - { name: Energy, pricePerKwh: 1 }
            taxes:
              - { name: Surcharge on energy, percent: 8, on: { parts: [energyCharge] } }
              - { name: Surcharge on fixed charge, percent: 8, on: { parts: [customerCharge] } }
            proration: { month: daysInMonth }
            """);
        var series = Plans.WithUse(Plans.Midnight("Asia/Kolkata", 2014, 7, 24), 14 * 24, (0, 5029.05));

        var lines = Biller.Bill(plan, series, [new LocalDate(2014, 7, 24), new LocalDate(2014, 8, 7)]).Periods.Single().Lines;

        Assert.Equal(0.4516m, decimal.Round(lines[0].Quantity, 4));
        Assert.Equal([67.74m, 5029.05m, 402.32m, 5.42m], lines.Select(l => l.Amount));
    }
}
