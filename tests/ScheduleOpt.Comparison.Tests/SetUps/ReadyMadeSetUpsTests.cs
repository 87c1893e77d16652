using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Comparison.Tests.SetUps;

public sealed class ReadyMadeSetUpsTests
{
    // NFPA 70 (NEC) 2023, 625.42 and 210.20(A): 80 % of the breaker; V * I. IEC 61851-1 currents at 230 and 400 V.
    [Theory]
    [InlineData("outlet-120v-15a", 1.44)]
    [InlineData("outlet-120v-20a", 1.92)]
    [InlineData("own-circuit-120v-20a", 1.92)]
    [InlineData("receptacle-240v-20a", 3.84)]
    [InlineData("receptacle-240v-30a", 5.76)]
    [InlineData("receptacle-240v-40a", 7.68)]
    [InlineData("receptacle-240v-50a", 9.60)]
    [InlineData("hardwired-208v-32a", 6.656)]
    [InlineData("hardwired-240v-32a", 7.68)]
    [InlineData("hardwired-240v-40a", 9.60)]
    [InlineData("hardwired-240v-48a", 11.52)]
    [InlineData("hardwired-240v-64a", 15.36)]
    [InlineData("hardwired-240v-80a", 19.20)]
    [InlineData("socket-230v-10a", 2.3)]
    [InlineData("wall-unit-230v-16a", 3.68)]
    [InlineData("wall-unit-230v-32a", 7.36)]
    [InlineData("wall-unit-400v-16a", 11.04)]
    [InlineData("wall-unit-400v-32a", 22.08)]
    public void ChargingPower_ReadyMade_IsThePublishedOne(string id, double kilowatts)
    {
        var car = Sample.Car with { OnBoardCharger = Power.FromKilowatts(50) };

        Assert.Equal(kilowatts, ReadyMadeSetUps.ById(id)!.Supply!.ChargingPower(car).Kilowatts, 9);
    }

    [Fact]
    public void All_ReadyMade_AreWellFormed()
    {
        var all = ReadyMadeSetUps.All;

        Assert.Equal(19, all.Count);
        Assert.Equal(all.Count, all.Select(s => s.Id).Distinct().Count());
        Assert.Equal(all.Count, all.Select(s => s.Name).Distinct().Count());
        Assert.Single(all, s => s.Supply is null);
        Assert.All(all.Select(s => s.Supply).OfType<Supply>(), s => Assert.True(Supply.IsKnown(s.VoltageV, s.Phases)));

        // Cord and plug only up to 50 A circuits: NEC 2020 and 2023, 625.44.
        Assert.All(
            all.Select(s => s.Supply).OfType<Supply>().Where(s => s.Connection == SupplyConnection.Receptacle), s => Assert.True(s.BreakerA <= 50));
        var ranges = all.SelectMany(s => s.FirstCost).Select(i => i.Range).OfType<PublishedRange>().Concat(all.Select(s => s.Standby).OfType<PublishedRange>());
        Assert.All(ranges, r => Assert.True(r.Low < r.High && r.Source.Length > 0));
    }

    [Fact]
    public void Choose_NothingOfItsOwn_TakesTheMiddleAndSaysSo()
    {
        // Unit 600, wiring 900, permit 150.
        var chosen = ReadyMadeSetUps.ById("receptacle-240v-40a")!.Choose(SetUpInputs.None);

        Assert.Equal(1650m, chosen.FirstCost);
        Assert.True(chosen.HasPlanningFigures);
        Assert.Equal(PublishedRanges.NoSingleAverage, chosen.Note);
        Assert.All(chosen.Costs, c => Assert.StartsWith("planning figure, the middle of", c.Figure.Note, StringComparison.Ordinal));
        Assert.EndsWith("(from memory, not confirmed)", chosen.Costs[1].Figure.Note, StringComparison.Ordinal);
        Assert.Null(chosen.LifetimeYears);
    }

    [Fact]
    public void Choose_OwnFigures_WinOverRanges()
    {
        var chosen = ReadyMadeSetUps.ById("hardwired-240v-48a")!.Choose(new SetUpInputs
        {
            FirstCost = new Dictionary<string, decimal> { [ReadyMadeSetUps.UnitPart] = 450, [ReadyMadeSetUps.WiringPart] = 1000, [ReadyMadeSetUps.PermitPart] = 0 },
            Options = [ReadyMadeSetUps.PanelPart],
            LifetimeYears = 12,
            StandbyW = 5,
        });

        // 450 + 1000 + 0 + 3000; 5 W for 8,766 h less 766 h.
        Assert.Equal(4450m, chosen.FirstCost);
        Assert.Equal(12, chosen.LifetimeYears);
        Assert.Equal(40m, chosen.StandbyKwhPerYear(766));
    }

    [Fact]
    public void Choose_NoPublishedRangeOrOtherMoney_NamesWhatIsMissing()
    {
        Assert.Equal(
            [ReadyMadeSetUps.UnitPart, ReadyMadeSetUps.WiringPart],
            ReadyMadeSetUps.ById("wall-unit-400v-16a")!.Choose(SetUpInputs.None).Missing);
        Assert.Equal(
            [ReadyMadeSetUps.WiringPart, ReadyMadeSetUps.PermitPart],
            ReadyMadeSetUps.ById("own-circuit-120v-20a")!.Choose(new SetUpInputs { Currency = "CAD" }).Missing);
    }

    [Fact]
    public void Choose_UnknownPart_IsRefused() => Assert.Throws<ArgumentException>(
        () => ReadyMadeSetUps.ById("outlet-120v-15a")!.Choose(new SetUpInputs { Options = ["larger panel"] }));
}
