using NodaTime;
using ScheduleOpt.Comparison.LifeCycle;
using static ScheduleOpt.Comparison.Tests.LifeCycle.LifeCycleSample;

namespace ScheduleOpt.Comparison.Tests.LifeCycle;

/// <summary>Incentives are lines with dates: the invented ones here are in force around 1 July 2026, or not.</summary>
public sealed class IncentiveTests
{
    private static readonly DiscountRate None = DiscountRate.Chosen(0);

    private static readonly Incentive Rebate = new()
    {
        Name = "rebate", Amount = 400, Source = "Invented Light, rebate form", AsOf = new LocalDate(2026, 6, 1),
    };

    [Theory]
    [InlineData(null, null, 400)]
    [InlineData("2026-07-01", "2026-07-01", 400)]
    [InlineData(null, "2026-06-30", 0)]
    [InlineData("2026-07-02", null, 0)]
    public void OneTime_InForceOnTheBaseDate_IsTakenOffTheInvestment(string? from, string? until, int counted)
    {
        var incentive = Rebate with { From = Date(from), Until = Date(until) };
        var cost = LifeCycleCost.Of(Energy("unit", 0, 1450) with { Incentives = [incentive] }, Years(10), None);

        Assert.Equal(1450, cost.Investment);
        Assert.Equal(counted, cost.OneTimeIncentives);
        Assert.Equal(1450 - counted, cost.Total);
        Assert.Equal(counted == 0 ? 1 : 0, cost.IncentivesNotInForce.Count());
    }

    [Fact]
    public void OneTime_PaidLater_IsDiscounted() => Assert.Equal(
        400 / 1.03,
        (double)LifeCycleCost.Of(Energy("unit", 0, 1450) with { Incentives = [Rebate with { Year = 1 }] }, Years(10), DiscountRate.Default)
            .OneTimeIncentives,
        1e-12);

    [Fact]
    public void Yearly_ForThreeYears_IsASavingNotALowerInvestment()
    {
        var yearly = Rebate with { Amount = 50, EachYear = 3 };
        var result = Against(Energy("today", 100), Energy("unit", 100, 100) with { Incentives = [yearly] }, 10, None);

        Assert.Equal([0, 50, 50, 50, 0], result.Alternative.Years.Take(5).Select(y => y.YearlyIncentives));
        Assert.Equal(1.5m, result.SavingsToInvestmentRatio);
        Assert.Equal(new Payback(PaybackOutcome.PaidBack, 2), result.SimplePayback);
    }

    [Fact]
    public void Contradictions_WrongLines_AreNamedAtOnce()
    {
        var wrong = Energy("unit", 0, -1) with
        {
            Replacements = [new ReplacementLine("unit", 11, 5)],
            Incentives = [Rebate with { Source = " ", From = new LocalDate(2027, 1, 1), Until = new LocalDate(2026, 1, 1), EachYear = 0 }],
        };

        Assert.Equal(5, LifeCycleCheck.Contradictions(wrong, Years(10)).Count);
        Assert.Throws<ArgumentException>(() => LifeCycleCost.Of(wrong, Years(10), None));
    }

    private static LocalDate? Date(string? text) => text is null ? null : NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;
}
