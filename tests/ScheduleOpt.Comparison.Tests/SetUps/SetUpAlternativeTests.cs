using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Comparison.Tests.LifeCycle;
using ScheduleOpt.Comparison.Tests.Year;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Tests.SetUps;

public sealed class SetUpAlternativeTests
{
    [Fact]
    public void Of_Cell_CarriesItsCashAndTheUnitsReplacement()
    {
        // The hand-worked year on 240 V: bill 264.22744, 1,442.2744 kWh at 0.10. Standby 5 W: 8,766 h less 1,442.2744 / 7.68 h, at 0.10.
        var ready = ReadyMadeSetUps.ById("receptacle-240v-40a")!;
        var cell = YearComparison.Run(SampleYear.HandWorked with { SetUps = [ready.SetUp], Behaviours = [new OnArrival()] }).Cells.Single();
        var chosen = ready.Choose(new SetUpInputs { LifetimeYears = 6, StandbyW = 5 });

        var alternative = SetUpAlternative.Of(
            "receptacle", cell, chosen, LifeCycleSample.Years(10), EnergyPricePath.Constant, EnergyPricePath.Constant);

        Assert.Equal(264.22744, (double)alternative.Energy[0].AmountPerYear, 1e-4);
        Assert.Equal(0m, alternative.Energy[1].AmountPerYear);
        Assert.Equal(0.10 * 5 * (8766 - (1442.2744 / 7.68)) / 1000, (double)alternative.Energy[2].AmountPerYear, 1e-6);
        Assert.Equal(1650m, alternative.Investment.Sum(i => i.Amount));
        Assert.Equal(new ReplacementLine(ReadyMadeSetUps.UnitPart, 6, 600), Assert.Single(alternative.Replacements));
        Assert.Equal(200m, Assert.Single(alternative.Salvage).Amount);
    }

    [Fact]
    public void Of_FirstCostMissing_IsRefused()
    {
        var ready = ReadyMadeSetUps.ById("wall-unit-400v-16a")!;
        var cell = YearComparison.Run(SampleYear.HandWorked with { SetUps = [ready.SetUp], Behaviours = [new OnArrival()] }).Cells.Single();

        Assert.Throws<ArgumentException>(() => SetUpAlternative.Of(
            "unit", cell, ready.Choose(SetUpInputs.None), LifeCycleSample.Years(10), EnergyPricePath.Constant, EnergyPricePath.Constant));
    }
}
