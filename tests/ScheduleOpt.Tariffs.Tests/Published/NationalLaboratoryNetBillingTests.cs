using NodaTime;

namespace ScheduleOpt.Tariffs.Tests.Published;

// National Renewable Energy Laboratory, ssc simulation core (BSD-3), test/ssc_test/cmod_utilityrate5_test.cpp, commit
// e97a19f8e035b6c8845690ee23c01b598c36d550 (2025-06-04), github.com/NREL/ssc: Test_Residential_TOU_Rates_net_billing_w_sell_rates, ..._net_billing_carryover, ..._net_billing.
// Another engine's figures, not a utility's bill. 1 January is a Monday: 2018, UTC. Series: Data/, with their licence.
public class NationalLaboratoryNetBillingTests
{
    private const string Calendar = """
        seasons:
          - { name: summer, ranges: [ { from: 05-01, to: 10-31 } ] }
          - { name: winter, ranges: [ { from: 11-01, to: 04-30 } ] }
        dayTypes:
          - { name: weekday, days: [monday, tuesday, wednesday, thursday, friday] }
          - { name: weekend, days: [saturday, sunday] }
        holidays: []
        periods: [base, midday, evening]
        windows:
          - { period: midday, seasons: [winter], dayTypes: [weekday], from: 10:00, to: 15:00 }
          - { period: evening, dayTypes: [weekday], from: 15:00, to: 20:00 }
        defaultPeriod: base

        """;

    private const string Prices = """
          - { name: Base, periods: [base], pricePerKwh: 0.10 }
          - { name: Winter midday, periods: [midday], pricePerKwh: 0.05 }
          - { name: Winter evening, periods: [evening], seasons: [winter], pricePerKwh: 0.20 }
          - { name: Summer evening, periods: [evening], seasons: [summer], pricePerKwh: 0.25 }

        """;

    private static readonly (MeteredSeries Import, MeteredSeries Export) Hourly =
        PublishedData.Net(2018, PublishedData.Kw("home_hourly_8760.csv"), PublishedData.Kw("home_pv_hourly_8760.csv.gz"));

    // Year -$150.02; December's export credit 34.47 (tolerance 0.1).
    [Fact]
    public void Year_ExportPaidAtRetail_IsThePublishedYear()
    {
        var bill = Biller.Bill(PaidAtRetail("creditUse: thisBill"), Hourly.Import, input: new() { Export = Hourly.Export });

        Assert.Equal(-150.02m, decimal.Round(bill.Total, 2));
        Assert.Equal(-34.47m, decimal.Round(bill.Periods[11].Lines.Where(l => l.Part == BillPart.ExportCredit).Sum(l => l.Amount), 2));
    }

    // Credit usable from the next month, dollars left paid out in December: year -150.02; December's pay-out 181.77; January of year 2, at prices 2.5 % higher,
    // 32.54. Year 2 begins on a Monday in the published run too: 2024.
    [Fact]
    public void Year_CreditUsableFromTheNextMonth_IsThePublishedYear()
    {
        var bill = Biller.Bill(PaidAtRetail("creditUse: bankNextBill\n  payOutPercent: 100\n  settlementMonth: 12"), Hourly.Import, input: new() { Export = Hourly.Export });

        Assert.Equal(-150.02m, decimal.Round(bill.Total, 2));
        Assert.Equal(31.75m, decimal.Round(bill.Periods[0].Total, 2));
        Assert.All(bill.Periods.Skip(1).Take(10), p => Assert.Equal(0, p.Total));
        Assert.Equal(-181.77m, decimal.Round(bill.Periods[11].Lines.Single(l => l.Description == "Export credit paid out").Amount, 2));
        Assert.Equal(0, bill.State.CreditBank);

        var (import, export) = PublishedData.Net(2024, PublishedData.Kw("home_hourly_8760.csv"), PublishedData.Kw("home_pv_hourly_8760.csv.gz"));
        var dearer = PaidAtRetail("creditUse: bankNextBill", rise: 1.025m);
        var next = Biller.Bill(dearer, import, input: new() { Export = export, State = bill.State });
        Assert.Equal(32.54m, decimal.Round(next.Periods[0].Total, 2));
    }

    // Year $441.4 (tolerance 0.1) with quarter hours and no export credit. Netted hour by hour the same year is another bill.
    [Fact]
    public void Year_QuarterHourNettingWithoutCredit_IsThePublishedYear()
    {
        var load = PublishedData.Kw("home_hourly_8760.csv").SelectMany(kw => Enumerable.Repeat(kw, 4)).ToArray();
        var (import, export) = PublishedData.Net(2018, load, PublishedData.Kw("home_pv_15min_35040.csv.gz"));

        var quarterly = Biller.Bill(WithoutCredit(15), import, input: new() { Export = export }).Total;
        var hourly = Biller.Bill(WithoutCredit(60), import, input: new() { Export = export }).Total;

        Assert.InRange(quarterly, 441.3m, 441.5m);
        Assert.Equal(441.402m, decimal.Round(quarterly, 3));
        Assert.True(hourly < quarterly, $"{hourly}");
        // Netting the published hourly output gives 447.82, the figure beside the published one.
        Assert.Equal(447.82m, decimal.Round(Biller.Bill(WithoutCredit(60), Hourly.Import, input: new() { Export = Hourly.Export }).Total, 2));
    }

    private static RatePlan WithoutCredit(int minutes) =>
        Plans.Of(Calendar + "energyCharges:\n" + Prices + $"export: {{ kind: netBilling, nettingMinutes: {minutes}, prices: [] }}") with { Rounding = Charges.Rounding.None };

    private static RatePlan PaidAtRetail(string rule, decimal rise = 1)
    {
        var plan = Plans.Of(Calendar + "energyCharges:\n" + Prices + "export:\n  kind: netBilling\n  prices:\n" + Prices.Replace("  - ", "    - ") + "  " + rule);
        return plan with
        {
            Rounding = Charges.Rounding.None,
            EnergyCharges = [.. plan.EnergyCharges.Select(c => c with { Blocks = [c.Blocks[0] with { PricePerKwh = c.Blocks[0].PricePerKwh * rise }] })],
        };
    }
}
