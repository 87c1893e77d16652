using ScheduleOpt.Comparison.LifeCycle;
using static ScheduleOpt.Comparison.Tests.LifeCycle.LifeCycleSample;

namespace ScheduleOpt.Comparison.Tests.LifeCycle;

/// <summary>What must hold for any alternative.</summary>
public sealed class LifeCyclePropertyTests
{
    [Fact]
    public void Measures_RandomAlternatives_AgreeWithEachOther()
    {
        var random = new Random(20260701);
        var withCapital = 0;
        for (var n = 0; n < 500; n++)
        {
            var (study, rate) = (Years(random.Next(1, 41)), DiscountRate.Chosen(Amount(random, 10) / 100));
            var result = new LifeCycleResult(
                LifeCycleCost.Of(Draw(random, "today", study), study, rate), LifeCycleCost.Of(Draw(random, "other", study), study, rate));

            Assert.Equal((double)result.NetSavings, (double)(result.Savings - result.AddedCapital), 1e-9);
            if (result.SavingsToInvestmentRatio is not { } ratio)
            {
                continue;
            }

            withCapital++;

            // The four measures of 10 CFR 436.18(c) say the same of one alternative against one reference.
            Assert.Equal(result.NetSavings > 0, ratio > 1);
            if (result.AdjustedInternalRateOfReturn is { } yield)
            {
                Assert.Equal(result.NetSavings > 0, yield > (double)rate.Real);

                // 10 CFR 436.22 word by word: compound the yearly savings to the end, n-th root of terminal value over present cost.
                var terminal = Enumerable.Range(1, study.Years).Sum(t =>
                    (double)(result.Reference.Years[t].Running - result.Alternative.Years[t].Running)
                    * Math.Pow(1 + (double)rate.Real, study.Years - t));
                Assert.Equal(Math.Pow(terminal / (double)result.AddedCapital, 1.0 / study.Years) - 1, yield, 1e-9);
            }
        }

        Assert.True(withCapital > 100);
    }

    [Fact]
    public void Total_CurrentMoneyAtTheNominalRate_IsTheSame()
    {
        // 10 CFR 436.14(a): constant money with the real rate or current money with the nominal one give one present value.
        var random = new Random(7);
        for (var n = 0; n < 100; n++)
        {
            var study = Years(random.Next(1, 41));
            var loan = new Loan(Amount(random, 20) / 100, Amount(random, 8) / 100);
            var cost = LifeCycleCost.Of(Draw(random, "any", study), study, DiscountRate.Of(loan));

            var nominal = cost.Years.Sum(y => (double)(y.Running + y.Capital)
                * Math.Pow(1 + (double)loan.Inflation, y.Year) / Math.Pow(1 + (double)loan.NominalRate, y.Year));

            Assert.Equal(nominal, (double)cost.Total, 1e-6 * Math.Max(1, Math.Abs(nominal)));
        }
    }

    [Fact]
    public void DiscountedPayback_RandomSavings_LeavesNothingToPayAtThatTime()
    {
        var random = new Random(3);
        for (var n = 0; n < 200; n++)
        {
            var (saving, capital, rate) = (10 + Amount(random, 500), 10 + Amount(random, 3000), Amount(random, 10) / 100);
            var result = Against(Energy("today", 1000), Energy("other", 1000 - saving, capital), 20, DiscountRate.Chosen(rate));
            if (result.DiscountedPayback.Years is not { } years)
            {
                Assert.True(result.NetSavings < 0);
                continue;
            }

            // Annuity with a fraction of a year.
            var (d, s) = ((double)rate, (double)saving);
            var paid = d == 0 ? s * years : s * (1 - Math.Pow(1 + d, -years)) / d;
            Assert.Equal((double)capital, paid, 1e-6);
            Assert.True(years >= result.SimplePayback.Years - 1e-9);
        }
    }

    private static decimal Amount(Random random, int most) => Math.Round((decimal)random.NextDouble() * most, 2);

    private static LifeCycleAlternative Draw(Random random, string name, StudyPeriod study)
    {
        var alternative = new LifeCycleAlternative
        {
            Name = name,
            Energy = [new EnergyLine("bill", Amount(random, 2000), EnergyPricePath.Escalating(Amount(random, 4) / 100, "drawn"))],
            Operation = [new OperationLine("inspection", Amount(random, 50))],
            Incentives =
            [
                new Incentive
                {
                    Name = "credit", Amount = Amount(random, 300), Source = "drawn", AsOf = Base, Year = random.Next(0, study.Years + 1),
                },
            ],
        };
        return alternative.WithEquipment("unit", Amount(random, 3000), random.Next(1, 41), study);
    }
}
