using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Households.Model;
using static ScheduleOpt.Scheduling.Tests.Households.HandMade;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>Every condition of merging is needed: a household for each whose optimum changes when it alone is ignored.</summary>
public class MergeConditionTests
{
    private static readonly NodaTime.Interval Month = Hours(-200, 500);
    private static readonly ChargingConstants Heated = new() { ConversionEfficiency = 1, OverheadKw = 0, HeatingKwPerKelvin = 0.1, HeatingBelowC = 0 };

    public static TheoryData<string> Conditions => [.. Enum.GetNames<MergeCondition>().Where(n => n != nameof(MergeCondition.None))];

    [Theory]
    [MemberData(nameof(Conditions))]
    public void Merging_IgnoringTheCondition_ChangesTheOptimum(string name)
    {
        var condition = Enum.Parse<MergeCondition>(name);
        var problem = Household(condition).Build();
        var model = HouseholdModel.Of(problem);
        var unmerged = HouseholdRelaxation.Solve(Segments.Unmerged(model), ShortfallOrder.InTimeOrder);
        var merged = HouseholdRelaxation.Solve(problem);
        Assert.Equal(unmerged.Objective, merged.Objective, 6);
        Assert.Equal(unmerged.Shortfalls.Targets + unmerged.Shortfalls.Trips, merged.Shortfalls.Targets + merged.Shortfalls.Trips, 6);

        var ignoring = HouseholdRelaxation.Solve(problem, ignored: condition);
        Assert.True(ignoring.Grid.Count < merged.Grid.Count, "Nothing more was merged: the test shows nothing.");
        var changed = Math.Abs(ignoring.Objective - merged.Objective)
            + Math.Abs(ignoring.Shortfalls.Targets - merged.Shortfalls.Targets) + Math.Abs(ignoring.Shortfalls.Trips - merged.Shortfalls.Trips);
        Assert.True(changed > 0.01, $"Ignoring {name} changes nothing.");
    }

    [Fact]
    public void Merging_EqualNeighbours_AreOne()
    {
        var problem = new HandMade(8) { Import = [1, 1, 1, 2, 2, 2, 2, 1], Cars = [new() { Required = 10 }] }.Build();
        Assert.Equal(3, Segments.Of(HouseholdModel.Of(problem)).Count);
    }

    [Fact]
    public void Merging_WholeAverages_AreOne()
    {
        var problem = new HandMade(8) { Import = Filled(8, 1), Terms = [Demand([Hours(2, 6)], 0)], Cars = [new() { Required = 10 }] }.Build();
        Assert.Equal(3, Segments.Of(HouseholdModel.Of(problem)).Count);
    }

    [Fact]
    public void Merging_ConditionalAmount_CountsItsOwnBillingPeriod()
    {
        // A charge of 5.00 for more than 6 kWh in the first hour's billing period: 6 kWh there and 7 kWh after it cost none.
        var problem = new HandMade(2) { Import = [1, 1], Terms = [new BandTerm("c", Hours(-9, 1), 6, null, 0, 5)], Cars = [new() { Required = 12.9 }] }.Build();
        Assert.Equal(12.9, HouseholdRelaxation.Solve(problem).Objective, 3);
        Assert.NotEqual(12.9, HouseholdRelaxation.Solve(problem, ignored: MergeCondition.UseHours).Objective, 1);
    }

    private static HandMade Household(MergeCondition condition) => condition switch
    {
        MergeCondition.ImportPrice => new(2) { Import = [1, 2], Cars = [new() { Required = 10 }] },
        MergeCondition.ExportPrice => new(2) { Import = [1, 1], Export = [0.1, 0.3], Solar = [10, 10], Cars = [new() { Required = 10 }] },
        MergeCondition.CarbonPrice => new(2) { Import = [1, 1], Carbon = [0.1, 0.3], Cars = [new() { Required = 10 }] },
        MergeCondition.Availability => new(2) { Import = [1, 1], Cars = [new() { Required = 10, MostA = [7, 0] }] },
        MergeCondition.CurrentLimit => new(2) { Import = [1, 1], Cars = [new() { Required = 12, MostA = [7, 3] }] },
        MergeCondition.Rate => new(2) { Import = [1, 1], Cars = [new() { Required = 14, Constants = Heated, Change = p => p.TemperatureC[1] = -10 }] },

        // 10 kWh must be there after the second hour, of which the first is dear.
        MergeCondition.LowerBound => new(3)
        {
            Import = [2, 1, 1],
            Cars = [new() { Required = 10, Change = p => (p.LowerKwh[2], p.LowerKwh[3]) = (10, 10) }],
        },

        // Room for 5 kWh after the first hour only.
        MergeCondition.UpperBound => new(3) { Import = [1, 1, 3], Cars = [new() { Required = 14, Change = p => p.UpperKwh[1] = 5 }] },
        MergeCondition.HouseLoad => new(2) { Import = [1, 1], House = [0, 5], Terms = [Demand([Month], 5)], Cars = [new() { Required = 8 }] },
        MergeCondition.Solar => new(2) { Import = [1, 1], Solar = [0, 5], Cars = [new() { Required = 10 }] },
        MergeCondition.UseHours => new(2)
        {
            Import = [1, 1],
            Terms = [new BlockTerm("b", Month, true, [Hours(1, 2)], 0, [new(1, 1), new(null, 3)], 0, false)],
            Cars = [new() { Required = 14 }],
        },
        MergeCondition.DemandHours => new(2) { Import = [1, 1], Terms = [Demand([Hours(1, 2)], 0)], Cars = [new() { Required = 10 }] },

        // Each of two billing periods is 3.00 below its minimum.
        MergeCondition.BillingPeriod => new(2)
        {
            Import = [1, 1],
            Terms = [new MinimumTerm("m", Hours(-9, 1), 3, 0), new MinimumTerm("m", Hours(1, 9), 3, 0)],
            Cars = [new() { Required = 6 }],
        },
        MergeCondition.Trip => new(3)
        {
            Import = [2, 1, 1],
            Cars = [new() { Departures = [new(2, 2, 10, 0, 0), new(3, 3, 10, 0, 0)] }],
        },
        MergeCondition.Flow => new(2) { Import = [0.1, 0.1], Export = [0.5, 0.5], Solar = [5, 5], Cars = [new() { Required = 7 }] },

        // 6 kWh there, 6 back; two hours at a stop between at 5 kW.
        MergeCondition.StopPrice => new(4)
        {
            Import = [1, 1, 1, 1],
            Cars =
            [
                new()
                {
                    Initial = 6,
                    MostA = [0, 5, 5, 0],
                    Departures = [new(0, 4, 0, 12, 60)],
                    Change = p =>
                    {
                        (p.Place[0], p.Place[1], p.Place[2], p.Place[3]) = (Place.Road, Place.Stop, Place.Stop, Place.Road);
                        (p.DriveKwh[0], p.DriveKwh[3]) = (6, 6);
                        (p.Price[1], p.Price[2]) = (0.1, 0.5);
                    },
                },
            ],
        },
        _ => throw new ArgumentOutOfRangeException(nameof(condition)),
    };

    private static DemandTerm Demand(NodaTime.Interval[] hours, decimal measured) =>
        new("demand", Month, true, hours, NodaTime.Duration.FromHours(1), false, measured, 0, measured, [new(null, 1)], null);
}
