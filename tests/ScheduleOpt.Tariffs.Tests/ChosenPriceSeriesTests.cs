using NodaTime;

namespace ScheduleOpt.Tariffs.Tests;

// What a choice leaves out needs nothing beside the plan.
public class ChosenPriceSeriesTests
{
    [Fact]
    public void HourlyPrice_NotChosen_NeedsNoPrices()
    {
        var plan = Plans.Of("""
            options: [ { name: supply, choices: [fixed, market], default: fixed } ]
            energyCharges:
              - { name: Fixed, pricePerKwh: 0.10, when: { supply: [fixed] } }
              - { name: Market, hourlyPrice: { series: spot, missing: refuse }, when: { supply: [market] } }
            """);
        var start = Instant.FromUtc(2026, 1, 1, 0, 0);
        var use = Plans.Even(start, Duration.FromHours(1), 10, 10);
        BillInput Choosing(string supply) => new() { Choices = new Dictionary<string, string> { ["supply"] = supply } };

        Assert.Equal(1.00m, Biller.Bill(plan, use).Total);
        Assert.Equal(1.00m, Biller.Bill(plan, use, input: Choosing("fixed")).Total);
        Assert.Equal(0.10m, PriceScheduleBuilder.Build(plan, start, use.End).Spans[0].ImportPerKwh);
        Assert.Equal("/prices/spot", Assert.Single(BillInputCheck.Faults(plan, use, Choosing("market"))).Path);
        Assert.Equal("/choices/supply", Assert.Single(BillInputCheck.Faults(plan, use, Choosing("neither"))).Path);
    }
}
