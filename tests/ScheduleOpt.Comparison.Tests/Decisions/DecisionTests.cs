using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.SetUps;
using ScheduleOpt.Comparison.Tests.Year;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Comparison.Tests.Decisions;

public sealed class DecisionTests
{
    // By hand. Public charging alone: 1,300 kWh into the battery over 0.92, at 0.48: 678.26, and 12 customer charges of 10: 798.26. On the 240 V receptacle the
    // year's bill is 264.22744. Saved: 534.03256 a year for 1,450.
    private const double Saved = 534.03256, FirstCost = 1450;

    // UPV of 10 years at 3 %: NIST Handbook 135's table, 8.530203.
    private const double Upv = 8.530203;

    [Fact]
    public void Money_OfTheHandWorkedYear_IsThatOfTheHandbooksRules()
    {
        var receptacle = Decision.Run(Question()).Cells[1].LifeCycle!;
        Assert.Equal((Saved * Upv) - FirstCost, (double)receptacle.NetSavings, 0.01);
        Assert.Equal(Saved * Upv / FirstCost, (double)receptacle.SavingsToInvestmentRatio!.Value, 1e-4);
        Assert.Equal(FirstCost / Saved, receptacle.SimplePayback.Years!.Value, 1e-4);
        Assert.Equal(-Math.Log(1 - (0.03 * FirstCost / Saved)) / Math.Log(1.03), receptacle.DiscountedPayback.Years!.Value, 1e-4);
    }

    [Fact]
    public void Flips_OfTheHandWorkedYear_AreWhereTheHandPutsThem()
    {
        var flips = Decision.Run(Question() with { BreakEvens = true }).Flips!;
        Assert.Equal(("receptacle", "public"), (flips.First.SetUp, flips.Second.SetUp));

        // Savings are proportional to distance: 5,200 miles are 8,368.6 km.
        Assert.Equal(8368.6 * FirstCost / (Saved * Upv), Assert.Single(flips.Axes[0].Found).At, 15.0);
        Assert.Equal(Saved * Upv, Assert.Single(flips.Axes[1].Found).At, 0.6);

        // One price has no two.
        Assert.Single(flips.LeftOut);
    }

    [Fact]
    public void Whys_StepsAddUpToTheDifferenceToTheCent()
    {
        var why = Assert.Single(Decision.Run(Question()).Whys, w => w.Against == "second").Waterfall;
        Assert.Equal(why.Difference, why.Steps.Sum(s => s.Amount));

        // Saved less the first cost as an equal amount a year.
        Assert.Equal(Saved - (FirstCost / Upv), (double)why.Difference, 0.01);
    }

    [Fact]
    public void Uncertainty_VariesOneInputAndCountsItsParts()
    {
        var told = new List<YearProgress>();
        var result = Decision.Run(Question() with { Uncertainty = true }, new Listener(told));
        var distance = result.Uncertainty!.Bars.Single(b => b.Input.Name == "Distance");

        // A fifth less distance is a fifth less energy on the receptacle, 144.22744 of 264.22744.
        Assert.Equal(-0.2 * 144.22744 * Upv, (double)(distance.Low.Amount - distance.Base.Amount), 0.5);
        Assert.All(result.Uncertainty.Bars, b => Assert.False(b.FlipsRanking));
        Assert.Equal((told.Max(t => t.Done), 1), (told[0].Total, told.Select(t => t.Total).Distinct().Count()));
    }

    [Fact]
    public void Run_Cancelled_GivesUp()
    {
        using var cancellation = new CancellationTokenSource();
        cancellation.Cancel();
        Assert.Throws<OperationCanceledException>(() => Decision.Run(Question(), null, cancellation.Token));
    }

    [Fact]
    public void Contradictions_AreFound()
    {
        var question = Question();
        Assert.Contains(DecisionCheck.Contradictions(question with { Today = null }), c => c.Contains("reference case", StringComparison.Ordinal));
        Assert.Contains(DecisionCheck.Contradictions(question with { SetUps = [] }), c => c.Contains("in their order", StringComparison.Ordinal));
        Assert.Contains(
            DecisionCheck.Contradictions(question with { Today = new CellName("receptacle", "flat", "byDeparture") }),
            c => c.Contains("behaviour must be one", StringComparison.Ordinal));
    }

    private static DecisionCase Question()
    {
        SetUp[] setUps = [SetUp.PublicChargingOnly("public"), new("receptacle", Sample.Receptacle)];
        return new DecisionCase
        {
            Year = SampleYear.HandWorked with { SetUps = setUps, Behaviours = [new OnArrival()] },
            SetUps =
            [
                Offered(setUps[0], null, SetUpInputs.None),
                Offered(setUps[1], Sample.Receptacle, new SetUpInputs { FirstCost = new Dictionary<string, decimal> { [ReadyMadeSetUps.WiringPart] = 1450 } }),
            ],
            Today = new CellName("public", "flat", null),
            LifeCycle = new LifeCycleQuestion(
                new LifeCycleTerms { Study = new StudyPeriod(new LocalDate(2026, 1, 1), 10) }, EnergyPricePath.Constant),
        };
    }

    private static OfferedSetUp Offered(SetUp setUp, Supply? supply, SetUpInputs inputs) => new(setUp, OfferedSetUp.Own(setUp.Name, supply).Choose(inputs), []);

    private sealed class Listener(List<YearProgress> told) : IProgress<YearProgress>
    {
        public void Report(YearProgress value)
        {
            lock (told)
            {
                told.Add(value);
            }
        }
    }
}
