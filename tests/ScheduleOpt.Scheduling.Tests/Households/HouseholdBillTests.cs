using NodaTime;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Tests.Options;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>What charging adds to a bill, worked out with a pencil: one car at 7.68 kW from 23:00Z to 01:00Z, 15.36 kWh at 0.10, or from 21:00Z to 22:00Z at 0.30.</summary>
public class HouseholdBillTests
{
    private static readonly Interval Charging = new(Nights.At(23), Nights.At(25));
    private static readonly Interval Evening = new(Nights.At(18), Nights.At(23));

    [Fact]
    public void EnergyAlone_IsPriceTimesEnergy() => Assert.Equal(1.536, Cost(Houses.One(), Charging).Bill, 9);

    [Fact]
    public void Solar_IsWorthItsCredit()
    {
        // 5 kW of sun from 12:00 to 13:00Z on the next day, house 1 kW: 4 kW would be exported at 0.04. The car isn't there: nothing changes. At 19:00Z, back home,
        // 5 kW again: charging takes 4 of 7.68 kWh from export (0.04), 3.68 from import (0.30).
        var question = Houses.One() with
        {
            House = new PowerForecast(Nights.At(18), Duration.FromDays(2), [1]),
            Solar = new PowerForecast(Nights.At(43), Duration.FromHours(1), [5]),
        };
        question = question with { Cars = [question.Cars[0] with { Case = question.Cars[0].Case with { Prices = Nights.Prices(export: 0.04m) } }] };
        Assert.Equal((4 * 0.04) + (3.68 * 0.30), Cost(question, new(Nights.At(43), Nights.At(44))).Bill, 9);
    }

    [Fact]
    public void Carbon_IsBesideTheBill()
    {
        var cost = Cost(Houses.One() with { CarbonPrice = [new(Nights.At(18), 0.02m, "")] }, Charging);
        Assert.Equal(1.536, cost.Bill, 9);
        Assert.Equal(15.36 * 0.02, cost.Carbon, 9);
    }

    [Theory]
    [InlineData(0, 0, 8.68 - 3)]
    [InlineData(5, 0, 8.68 - 5)]
    [InlineData(0, 6, 8.68 - 6)]
    [InlineData(9, 0, 0)]
    public void Demand_CostsWhatPassesThePeakAndTheFloor(double measured, double floor, double moreKw)
    {
        // House 1 kW; the measured peak of the house itself is 3 kW where nothing else is said. 8 per kW.
        var term = Demand(Evening, 60, measured == 0 ? 3 : (decimal)measured, (decimal)floor, [new(null, 8)]);
        Assert.Equal(moreKw * 8, Cost(WithHouse(term), new(Nights.At(21), Nights.At(22))).Terms.Sum(t => t.Cost), 9);
    }

    [Fact]
    public void Demand_AveragesOverItsWindows()
    {
        // Half an hour from 21:15 to 21:45: over 60 min 3.84 + 1 kW, over 30 min aligned (21:00, 21:30) the same, over 15 min 8.68, sliding 30 min 8.68.
        var half = new Interval(Nights.At(21, 15), Nights.At(21, 45));
        double More(int minutes, bool sliding) =>
            Cost(WithHouse(Demand(Evening, minutes, 1, 0, [new(null, 1)], sliding)), half).Terms.Sum(t => t.Cost);
        Assert.Equal(3.84, More(60, false), 9);
        Assert.Equal(3.84, More(30, false), 9);
        Assert.Equal(7.68, More(15, false), 9);
        Assert.Equal(7.68, More(30, true), 9);
    }

    [Fact]
    public void Demand_OutsideItsHours_CostsNothing() =>
        Assert.Empty(Cost(WithHouse(Demand(Evening, 60, 1, 0, [new(null, 8)])), Charging).Terms);

    [Fact]
    public void Demand_ByBlocks()
    {
        // From 3 to 8.68 kW: 2 kW to 5 kW at 1, 3.68 at 10.
        var term = Demand(Evening, 60, 3, 0, [new(5, 1), new(null, 10)]);
        Assert.Equal(2 + 36.8, Cost(WithHouse(term), new(Nights.At(21), Nights.At(22))).Terms.Sum(t => t.Cost), 9);
    }

    [Fact]
    public void Blocks_CostTheDifferenceToTheReachedBlock()
    {
        // 100 kWh used, the block at 0.10 ends at 110: 10 kWh at 0.10, 5.36 at 0.25: 5.36 * 0.15 more than the span price says.
        var term = Block(used: 100, wholeUse: false, new(110, 0.10m), new(null, 0.25m));
        Assert.Equal(5.36 * 0.15, Cost(Houses.One(terms: [term]), Charging).Terms.Single().Cost, 9);
    }

    [Fact]
    public void WholeUse_JumpsAtTheEdge()
    {
        // 115.36 kWh all at 0.25, instead of 100 at 0.10 and 15.36 at 0.10.
        var term = Block(used: 100, wholeUse: true, new(110, 0.10m), new(null, 0.25m));
        Assert.Equal((115.36 * 0.25) - (115.36 * 0.10), Cost(Houses.One(terms: [term]), Charging).Terms.Single().Cost, 9);
    }

    [Theory]
    [InlineData(30, 28, -1.536)]
    [InlineData(30, 29, -1)]
    [InlineData(30, 31, 0)]
    public void MinimumBill_TakesWhatItHadAsked(double minimum, double counted, double cost)
    {
        var term = new MinimumTerm("least", Houses.January, (decimal)minimum, (decimal)counted);
        Assert.Equal(cost, Cost(Houses.One(terms: [term]), Charging).Terms.Sum(t => t.Cost), 9);
    }

    [Theory]
    [InlineData(90, 5)]
    [InlineData(99, 5)]
    [InlineData(70, 0)]
    [InlineData(101, 0)]
    [InlineData(150, 0)]
    public void Band_HoldsOrCeasesByUse(double used, double cost)
    {
        // 5 more from above 100 to 120 kWh: 90 + 15.36 and 99 + 15.36 come into it, 101 is in it before and after.
        var term = new BandTerm("band", Houses.January, 100, 120, (decimal)used, 5);
        Assert.Equal(cost, Cost(Houses.One(terms: [term]), Charging).Terms.Sum(t => t.Cost), 9);
    }

    [Fact]
    public void WarmingAndChargingOnTopOfIt_AddUpToBoth()
    {
        // 30 min of 8 kW before 06:00Z in hours of the demand charge, over a block edge, under a minimum bill.
        PriceTerm[] terms =
        [
            Demand(new(Nights.At(20), Nights.At(31)), 60, 2, 0, [new(4, 1), new(null, 10)]),
            Block(used: 109, wholeUse: false, new(110, 0.10m), new(null, 0.25m)),
            new MinimumTerm("least", Houses.January, 40, 38),
        ];
        var car = Nights.Plain(-10) with { WarmUp = new(Duration.FromMinutes(30), 3, 1, 0) };
        var problem = HouseholdProblemBuilder.Build(Houses.One(car, terms: terms));
        var cold = HouseholdProblemBuilder.Build(Houses.One(car with { WarmUp = null, Cuts = problem.Boundaries }, terms: terms));
        var charging = Powers(problem, Charging);
        var both = charging.Zip(problem.HouseKw, (c, h) => c + h).ToArray();
        Assert.True(problem.WarmUpCost > 0);
        Assert.Equal(HouseholdBill.Of(cold, both).Total, problem.WarmUpCost + HouseholdBill.Of(problem, charging).Total, 9);
    }

    private static DemandTerm Demand(Interval hours, int minutes, decimal measured, decimal floor, DemandPrice[] blocks, bool sliding = false) =>
        new("peak", Houses.January, true, [hours], Duration.FromMinutes(minutes), sliding, measured, floor, Math.Max(measured, floor), blocks, null);

    private static BlockTerm Block(decimal used, bool wholeUse, params PriceBlock[] blocks) =>
        new("blocks", Houses.January, !wholeUse, [Houses.January], used, blocks, 0, wholeUse);

    private static HouseholdCase WithHouse(PriceTerm term) =>
        Houses.One(terms: [term]) with { House = new PowerForecast(Nights.At(18), Duration.FromDays(2), [1]) };

    private static HouseholdCost Cost(HouseholdCase question, Interval charging)
    {
        var problem = HouseholdProblemBuilder.Build(question);
        return HouseholdBill.Of(problem, Powers(problem, charging));
    }

    private static double[] Powers(HouseholdProblem problem, Interval charging) =>
        [.. problem.Boundaries[..^1].Select(b => charging.Contains(b) ? Nights.FullKw : 0)];
}
