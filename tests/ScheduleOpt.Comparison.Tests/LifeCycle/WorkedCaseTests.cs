using ScheduleOpt.Comparison.LifeCycle;
using static ScheduleOpt.Comparison.Tests.LifeCycle.LifeCycleSample;

namespace ScheduleOpt.Comparison.Tests.LifeCycle;

/// <summary>Measures of NIST Handbook 135 and 10 CFR 436.19 to 436.23 on cases worked by hand.</summary>
public sealed class WorkedCaseTests
{
    private static readonly DiscountRate None = DiscountRate.Chosen(0);

    /// <summary>Capital 1,450, saving 286 a year, 10 years, 3 % real.</summary>
    private static LifeCycleResult Worked(DiscountRate rate) => Against(Energy("today", 1000), Energy("receptacle", 714, 1450), 10, rate);

    [Fact]
    public void Measures_WorkedCase_AreTheWorkedFigures()
    {
        // 286 * 8.53020284 = 2,439.638011; less 1,450; over 1,450; 1450 / 286; -ln(1 - 0.03 * 1450 / 286) / ln 1.03;
        // 1.03 * 1.682509^(1/10) - 1.
        var result = Worked(DiscountRate.Default);

        Assert.Equal(8.530203, (double)DiscountRate.Default.UniformPresentValue(10), 1e-6);
        Assert.Equal(989.638011, (double)result.NetSavings, 1e-6);
        Assert.Equal(1.682509, (double)result.SavingsToInvestmentRatio!, 1e-6);
        Assert.Equal(5.069930, result.SimplePayback.Years!.Value, 1e-6);
        Assert.Equal(-Math.Log(1 - (0.03 * 1450 / 286)) / Math.Log(1.03), result.DiscountedPayback.Years!.Value, 1e-9);
        Assert.Equal(5.582, result.DiscountedPayback.Years!.Value, 5e-4);
        Assert.Equal(0.085008, result.AdjustedInternalRateOfReturn!.Value, 1e-6);
        Assert.Equal(PaybackOutcome.PaidBack, result.DiscountedPayback.Outcome);
        Assert.True(result.IsCostEffective);
    }

    [Fact]
    public void Measures_RateZero_AreThoseOfPlainSums()
    {
        // 10 * 286 - 1450 = 1,410; 2860 / 1450; 1.972414^(1/10) - 1 = 0.070286.
        var result = Worked(None);

        Assert.Equal(1410m, result.NetSavings);
        Assert.Equal(1.972414, (double)result.SavingsToInvestmentRatio!, 1e-6);
        Assert.Equal(Math.Pow(2860 / 1450.0, 0.1) - 1, result.AdjustedInternalRateOfReturn!.Value, 1e-12);
        Assert.Equal(result.SimplePayback, result.DiscountedPayback);
    }

    [Fact]
    public void Capital_EquipmentOutlivedTwice_IsReplacedAndProrated()
    {
        // Life 4, study 10: bought at 0, 4 and 8; the last one is 2 years old, half of it is left.
        // 1000 * (1 + 1.03^-4 + 1.03^-8) - 500 * 1.03^-10 = 2,305.8493; without discount 3,000 - 500.
        var alternative = Energy("unit", 0).WithEquipment("unit", 1000, 4, Years(10));

        Assert.Equal([4, 8], alternative.Replacements.Select(r => r.Year));
        Assert.Equal(500m, Assert.Single(alternative.Salvage).Amount);
        Assert.Equal(2305.8493, (double)LifeCycleCost.Of(alternative, Years(10), DiscountRate.Default).Capital, 1e-3);
        Assert.Equal(2500m, LifeCycleCost.Of(alternative, Years(10), None).Total);
    }

    [Fact]
    public void Energy_EscalatingTenPerCent_RisesFromTheFirstYearOn()
    {
        // NIST Handbook 135: the base date's price escalates into the first year's. 110 + 121 + 133.10; discounted it is 100 * UPV*.
        var path = EnergyPricePath.Escalating(0.10m, "test");
        var alternative = new LifeCycleAlternative { Name = "any", Energy = [new EnergyLine("bill", 100, path)] };

        Assert.Equal(364.10m, LifeCycleCost.Of(alternative, Years(3), None).Energy);
        Assert.Equal([0m, 110m, 121m, 133.1m], LifeCycleCost.Of(alternative, Years(3), None).Years.Select(y => y.Energy));
        Assert.Equal(
            (double)(100 * DiscountRate.Default.UniformPresentValue(3, path)),
            (double)LifeCycleCost.Of(alternative, Years(3), DiscountRate.Default).Total,
            1e-9);
    }

    [Theory]
    [InlineData(10, 0, 0)]
    [InlineData(5, 1, 0)]
    [InlineData(15, 0, 5)]
    [InlineData(1, 9, 0)]
    public void WithEquipment_LifeAgainstStudy_ReplacesOnlyWhatIsOver(int life, int replacements, int yearsLeft)
    {
        var alternative = Energy("unit", 0).WithEquipment("unit", 300, life, Years(10));

        Assert.Equal(replacements, alternative.Replacements.Count);
        Assert.Equal(300m * yearsLeft / life, alternative.Salvage.Sum(s => s.Amount));
    }

    [Fact]
    public void Payback_Salvage_CountsInTheLastYearOnly()
    {
        // 100 spent, 20 a year for 4 years, 30 left: 80 by then, 110 with what is left: at the end of year 4.
        var alternative = Energy("unit", 80, 100) with { Salvage = [new SalvageLine("unit", 30)] };

        var result = Against(Energy("today", 100), alternative, 4, None);

        Assert.Equal(new Payback(PaybackOutcome.PaidBack, 4), result.SimplePayback);
        Assert.Equal(10m, result.NetSavings);
    }

    [Fact]
    public void Payback_ReplacementAfterIt_IsSaidToLoseIt()
    {
        // 100 spent, 60 a year: paid back after 5/3 years; 300 in year 3 for 4 years: 4 * 60 - 400 = -160.
        var alternative = Energy("unit", 40, 100) with { Replacements = [new ReplacementLine("unit", 3, 300)] };

        var result = Against(Energy("today", 100), alternative, 4, None);

        Assert.Equal(PaybackOutcome.PaidBackThenLost, result.SimplePayback.Outcome);
        Assert.Equal(5.0 / 3, result.SimplePayback.Years!.Value, 1e-12);
        Assert.Equal(-160m, result.NetSavings);
        Assert.False(result.IsCostEffective);
    }

    [Fact]
    public void Payback_TooLittleSaved_IsNoneInTheStudyPeriod()
    {
        var result = Against(Energy("today", 100), Energy("unit", 90, 1000), 10, DiscountRate.Default);

        Assert.Equal(new Payback(PaybackOutcome.NotInStudyPeriod, null), result.SimplePayback);
        Assert.Equal(new Payback(PaybackOutcome.NotInStudyPeriod, null), result.DiscountedPayback);
        Assert.True(result.AdjustedInternalRateOfReturn < 0);
    }

    [Fact]
    public void Measures_RunningCostsMore_HaveANegativeRatioAndNoRateOfReturn()
    {
        // 10 a year more for 10 years on 100: (-100 - 100); ratio -1.
        var result = Against(Energy("today", 100), Energy("unit", 110, 100), 10, None);

        Assert.Equal(-200m, result.NetSavings);
        Assert.Equal(-1m, result.SavingsToInvestmentRatio);
        Assert.Null(result.AdjustedInternalRateOfReturn);
        Assert.Equal(PaybackOutcome.NotInStudyPeriod, result.SimplePayback.Outcome);
    }

    [Fact]
    public void Measures_NoAddedCapital_HaveNetSavingsAlone()
    {
        var result = Against(Energy("today", 100, 50), Energy("other plan", 90), 10, None);

        Assert.Equal(150m, result.NetSavings);
        Assert.Null(result.SavingsToInvestmentRatio);
        Assert.Null(result.AdjustedInternalRateOfReturn);
        Assert.Equal(PaybackOutcome.NothingToPayBack, result.SimplePayback.Outcome);
        Assert.True(result.IsCostEffective);
    }

    [Fact]
    public void AtLoanRate_Financed_IsASecondResult()
    {
        // At 1.07 / 1.025 - 1 = 4.390244 % the annuity of 10 years is 7.954972: 286 * 7.954972 - 1450.
        var real = (1.07 / 1.025) - 1;
        var annuity = (1 - Math.Pow(1 + real, -10)) / real;

        var comparison = LifeCycleComparison.Of(
            [Energy("today", 1000), Energy("receptacle", 714, 1450)],
            "today",
            new LifeCycleTerms { Study = Years(10), Loan = new Loan(0.07m, 0.025m) });

        Assert.Equal((286 * annuity) - 1450, (double)comparison.AtLoanRate[1].NetSavings, 1e-6);
        Assert.Equal(989.638011, (double)comparison.AtDiscountRate[1].NetSavings, 1e-6);
        Assert.Equal(["receptacle", "today"], comparison.Ranked.Select(r => r.Alternative.Alternative.Name));
    }

    [Fact]
    public void Of_ReferenceNotAmongThem_IsRefused() => Assert.Throws<ArgumentException>(
        () => LifeCycleComparison.Of([Energy("a", 1)], "today", new LifeCycleTerms { Study = Years(10) }));
}
