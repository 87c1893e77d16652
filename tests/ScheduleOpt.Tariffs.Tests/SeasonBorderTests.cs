using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// A window over midnight takes the season of its first day into a billing period that has no day of that season.
public class SeasonBorderTests
{
    private const string Seasons = """
        seasons:
          - { name: summer, ranges: [ { from: 06-01, to: 08-31 } ] }
          - { name: rest, ranges: [ { from: 09-01, to: 05-31 } ] }
        periods: [night, day]
        windows: [ { period: night, from: 22:00, to: 06:00 } ]
        defaultPeriod: day

        """;

    private static readonly Instant June = Instant.FromUtc(2026, 6, 1, 0, 0);

    // 12 kWh before 06:00 at the rest's price, 60 kWh after it at the summer's.
    [Fact]
    public void BillingPeriod_OnTheFirstDayOfASeason_BillsTheNightBefore()
    {
        var plan = Plans.Of(Seasons + """
            energyCharges: [ { name: Rest, seasons: [rest], pricePerKwh: 1 }, { name: Summer, seasons: [summer], pricePerKwh: 0.1 } ]
            credits: [ { name: Credit, seasons: [rest], amount: 0.25, per: kwh }, { name: Daily, seasons: [rest], amount: 5, per: day } ]
            customerCharges: [ { name: Winter, seasons: [rest], amount: 7, per: billingPeriod } ]
            """);
        var bill = Biller.Bill(plan, Plans.WithUse(June, 30 * 24, (1, 12), (12, 60)));

        Assert.Equal([12.00m, 6.00m, -3.00m], bill.Periods.Single().Lines.Select(l => l.Amount));
    }

    // Without a day of its season a monthly limit is 0 kWh: all lies in the last block. One for the billing period stays.
    [Theory]
    [InlineData("month", "36.00")]
    [InlineData("day", "36.00")]
    [InlineData("billingPeriod", "16.00")]
    public void Blocks_WithoutADayOfTheSeason_HaveLimitsOfNothing(string limitPer, string expected)
    {
        var plan = Plans.Of(Seasons + $$"""
            energyCharges:
              - { name: Rest, seasons: [rest], limitPer: {{limitPer}}, blocks: [ { upToKwh: 10, pricePerKwh: 1 }, { pricePerKwh: 3 } ] }
              - { name: Summer, seasons: [summer], pricePerKwh: 0.1 }
            """);

        Assert.Equal(decimal.Parse(expected, null), Biller.Bill(plan, Plans.WithUse(June, 30 * 24, (1, 12))).Total);
    }

    [Fact]
    public void PriceSchedule_NightBeforeTheFirstDay_HasThePriceOfTheBill()
    {
        var plan = Plans.Of(Seasons + """
            energyCharges: [ { name: Rest, seasons: [rest], pricePerKwh: 1 }, { name: Summer, seasons: [summer], pricePerKwh: 0.1 } ]
            """);
        var prices = PriceScheduleBuilder.Build(plan, June, June + Duration.FromDays(1));

        Assert.Equal(1m, prices.Spans[0].ImportPerKwh);
        Assert.Equal(0.1m, prices.Spans[1].ImportPerKwh);
    }
}
