using NodaTime;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Tariffs.Tests.Schedules;

// A bill is a statement: what each line says gives its amount, and the lines give the total.
public class StatementTests
{
    public static TheoryData<string> SamplePlans => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(SamplePlans))]
    public void Lines_OfEverySamplePlan_MultiplyOutAndAddUp(string id)
    {
        var plan = RatePlanLibrary.Find(id)!;
        var random = new Random(20260701);
        var start = plan.Zone.AtStartOfDay(new LocalDate(2026, 1, 1)).ToInstant();
        MeteredSeries Drawn() => MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), Enumerable.Range(0, 400 * 24).Select(_ => random.NextDouble() * 3).ToArray());
        var series = Drawn();
        var bill = Biller.Bill(plan, series, input: Plans.InputFor(series, plan.Export is null ? null : Drawn()));

        foreach (var line in bill.Periods.SelectMany(p => p.Lines))
        {
            Assert.NotEqual("", line.Unit);
            Assert.NotEqual("", line.Rule);
            Assert.True(line.Part == BillPart.Rounding || line.Place is { Line: > 0 }, line.Description);
            // The price shown of an hourly line is a mean of six decimals; a percentage in part of a period has its share in its price.
            var slack = 0.006m + (line.Rule.Contains("price of each interval", StringComparison.Ordinal) ? Math.Abs(line.Quantity) * 0.000001m : 0);
            Assert.True(Math.Abs((line.Quantity * line.Price) - line.Amount) <= slack, $"{line.Description}: {line.Quantity} x {line.Price} is not {line.Amount}");
        }

        Assert.All(bill.Periods, p => Assert.Equal(p.Total, p.Lines.Sum(l => l.Amount)));
        Assert.Equal(bill.Total, bill.TotalsByPart().Values.Sum());
        Assert.All(bill.TotalsByPart(), t => Assert.Equal(t.Value, bill.TotalOf(t.Key)));
    }
}
