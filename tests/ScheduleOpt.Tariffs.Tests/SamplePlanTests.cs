using NodaTime;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Tariffs.Tests;

public class SamplePlanTests(ITestOutputHelper output)
{
    private const string Zone = "America/Chicago";

    [Fact]
    public void SamplePlans_AllOfThem_SayThatTheyAreInvented()
    {
        Assert.Equal(12, RatePlanLibrary.All.Count);
        Assert.All(RatePlanLibrary.All, plan => Assert.Contains("(invented)", plan.Utility, StringComparison.Ordinal));
        Assert.All(RatePlanLibrary.All, plan => Assert.StartsWith("Invented", plan.Source, StringComparison.Ordinal));
    }

    // Kilowatt-hours a year. The house takes a quarter of its use from 00:00 to 08:00 and the rest evenly over the other hours, the same every day; the car
    // is charged from 00:00 to 04:00 every night.
    [Theory]
    [InlineData(3600, 0, "sample-electric-small-home")]
    [InlineData(22000, 0, "sample-electric-all-electric-home")]
    [InlineData(6000, 6000, "example-power-car-owner")]
    [InlineData(10000, 3000, "example-power-three-seasons")]
    public void SamplePlans_ByHousehold_AnotherOneIsCheapest(int houseKwh, int carKwh, string cheapest)
    {
        var load = Load(houseKwh, carKwh);

        // The twelve show the format; these seven compete with each other.
        var bills = RatePlanLibrary.All.Where(p => p.Id.StartsWith("example", StringComparison.Ordinal) || p.Id.StartsWith("sample", StringComparison.Ordinal)).Select(plan => (plan.Id, Biller.Bill(plan, load).Total)).OrderBy(b => b.Total).ToArray();

        foreach (var bill in bills)
        {
            output.WriteLine($"{bill.Id} {bill.Total}");
        }

        Assert.Equal(cheapest, bills[0].Id);
    }

    // The example of tariffs/README.md, worked by hand there.
    [Fact]
    public void SmallHome_June800Kwh_IsTheBillOfTheReadme()
    {
        var june = Plans.WithUse(Plans.Midnight(Zone, 2026, 6, 1), 30 * 24, (10, 300), (500, 500));
        var plan = RatePlanLibrary.Find("sample-electric-small-home")!;

        var bill = Biller.Bill(plan, june);

        Assert.Equal(
            [9.90m, 48.00m, 39.60m, -0.96m, 2.8962m, 1.491543m, 0.002257m],
            bill.Periods.Single().Lines.Select(l => decimal.Round(l.Amount, 6)));
        Assert.Equal(100.93m, bill.Total);
        Assert.Equal(0.13674486m, PriceScheduleBuilder.Build(plan, june.Start, june.End, june).Spans.Single().ImportPerKwh);
    }

    private static MeteredSeries Load(double houseKwh, double carKwh)
    {
        var kwh = new double[365 * 24];
        for (var hour = 0; hour < kwh.Length; hour++)
        {
            var house = hour % 24 < 8 ? 0.25 / 8 : 0.75 / 16;
            kwh[hour] = (houseKwh / 365 * house) + (hour % 24 < 4 ? carKwh / 365 / 4 : 0);
        }

        return MeteredSeries.FromKilowattHours(Plans.Midnight(Zone, 2027, 1, 1), Duration.FromHours(1), kwh);
    }
}
