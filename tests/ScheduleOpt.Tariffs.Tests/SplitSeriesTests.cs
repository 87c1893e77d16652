using NodaTime;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Tests;

// A series that is cut where a billing period ends gives the bill of the whole, when the state is handed on.
public class SplitSeriesTests
{
    public static TheoryData<string> SamplePlans => [.. RatePlanLibrary.Ids];

    [Theory]
    [MemberData(nameof(SamplePlans))]
    public void Series_CutAtABillingPeriod_GivesTheSameBill(string id)
    {
        var plan = RatePlanLibrary.Find(id)!;
        var (whole, parts, _) = Bills(plan);

        Assert.Equal(whole.Total, parts.Total);
        Assert.Equal(whole.Periods.Select(p => p.Total), parts.Periods);
        Assert.Equal(whole.State.CreditBank, parts.State.CreditBank);
        Assert.Equal(whole.State.BankMicroKwh.OrderBy(b => b.Key), parts.State.BankMicroKwh.OrderBy(b => b.Key));
    }

    // Each kind of state matters: peaks, banked energy, banked money, recent use.
    [Theory]
    [InlineData("model-county-peak-aware")]
    [InlineData("specimen-light-baseline-home")]
    [InlineData("model-county-solar-home")]
    public void Series_CutWithoutHandingOnTheState_GivesAnotherBill(string id)
    {
        var (whole, _, forgetful) = Bills(RatePlanLibrary.Find(id)!);

        Assert.NotEqual(whole.Total, forgetful);
    }

    [Fact]
    public void Rebate_BaselineDaysInTheSeriesBefore_NeedTheState()
    {
        var plan = Plans.Of("""
            energyCharges: [ { name: Energy, pricePerKwh: 0 } ]
            events: [ { name: saving } ]
            rebates: [ { name: Rebate, event: saving, pricePerKwh: 1, baseline: { days: 3 } } ]
            """);
        var events = new Dictionary<string, IReadOnlyList<CalledEvent>> { ["saving"] = [new(new(2026, 2, 1, 17, 0), new(2026, 2, 1, 18, 0))] };
        var start = Instant.FromUtc(2026, 1, 1, 0, 0);
        var use = Plans.Even(start, Duration.FromHours(1), 59 * 24, 59 * 24 * 2);
        var february = start + Duration.FromDays(31);
        var quiet = MeteredSeries.FromKilowattHours(february, Duration.FromHours(1), Enumerable.Range(0, 28 * 24).Select(h => h == 17 ? 0.5 : 2).ToArray());

        var before = Biller.Bill(plan, use.Between(start, february));

        Assert.Equal(-1.5m, Biller.Bill(plan, quiet, input: new() { Events = events, State = before.State }).Total);
        var without = Biller.Bill(plan, quiet, input: new() { Events = events });
        Assert.Equal(0, without.Total);
        Assert.Contains("no rebate", Assert.Single(without.Warnings), StringComparison.Ordinal);
    }

    private static (Bill Whole, (decimal Total, IEnumerable<decimal> Periods, BillState State) Parts, decimal Forgetful) Bills(RatePlan plan)
    {
        var random = new Random(20270701);
        var start = plan.Zone.AtStartOfDay(new LocalDate(2027, 1, 1)).ToInstant();
        var count = (int)(plan.Zone.AtStartOfDay(new LocalDate(2028, 3, 1)).ToInstant() - start).TotalHours;
        var import = MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), Enumerable.Range(0, count).Select(h => random.NextDouble() * (h < 1000 ? 9 : 1.5)).ToArray());
        var export = MeteredSeries.FromKilowattHours(start, Duration.FromHours(1), Enumerable.Range(0, count).Select(h => h % 24 is > 9 and < 23 ? random.NextDouble() * (h is > 2500 and < 4344 ? 6 : 1.5) : 0).ToArray());
        var input = Plans.InputFor(import, export);
        var whole = Biller.Bill(plan, import, input: input);

        var (state, total, forgetful) = (BillState.Empty, 0m, 0m);
        var periods = new List<decimal>();
        foreach (var (from, until) in new[] { ((2027, 1), (2027, 2)), ((2027, 2), (2027, 7)), ((2027, 7), (2028, 3)) })
        {
            Instant At((int Year, int Month) m) => plan.Zone.AtStartOfDay(new LocalDate(m.Year, m.Month, 1)).ToInstant();
            var part = import.Between(At(from), At(until));
            var given = input with { Export = export.Between(At(from), At(until)) };
            var bill = Biller.Bill(plan, part, input: given with { State = state });
            (state, total) = (bill.State, total + bill.Total);
            periods.AddRange(bill.Periods.Select(p => p.Total));
            forgetful += Biller.Bill(plan, part, input: given).Total;
        }

        return (whole, (total, periods, state), forgetful);
    }
}
