using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Comparison.Tests.Households;

/// <summary>What must hold of least cost on random households; .ci/long runs two hundred.</summary>
public sealed class YearHouseholdTests(ITestOutputHelper output)
{
    private const decimal MostShareDearer = 0.03m;
    private const double LeastShareNoDearer = 0.95;

    private static readonly Lazy<IReadOnlyList<Household>> All = new(() => [.. Run(YearHouseholds.Count, null)]);

    [Fact]
    public void Run_AnyBehaviour_CostsNoLessThanTheLowerBound()
    {
        foreach (var household in All.Value)
        {
            var frame = new YearFrame(household.Case);
            var plan = PlanYear.Of(frame, household.Case.RatePlans[0]);
            var year = new SetUpYear(frame, household.Case.SetUps[0]).At(plan);
            var bounds = new Dictionary<double, double>();
            foreach (var cell in household.Cells)
            {
                var final = Math.Round(year.InitialKwh - cell.EndCorrection.MissingKwh, 9);
                if (!bounds.TryGetValue(final, out var bound))
                {
                    bounds[final] = bound = CashBound.Of(frame, year, plan, final - 1e-9);
                }

                var cash = (double)(cell.CarShare + cell.Away.Cost);
                Assert.True(bound <= cash + 1e-6, $"{household.Seed} {cell.Behaviour!.Name}: {bound} above {cash}");
            }
        }
    }

    [Fact]
    public void Run_KnownAhead_IsWithinOneFifthPerCentOrOneUnitOfItsBound()
    {
        var widest = 0m;
        var wide = new List<string>();
        foreach (var household in All.Value)
        {
            var cell = household.Cells.Single(c => c.Behaviour is LeastCostKnownAhead);
            var gap = cell.WholeHouseCost - cell.BoundCost!.Value;
            widest = Math.Max(widest, gap);
            output.WriteLine(FormattableString.Invariant($"{household.Seed} kind {household.Seed % YearHouseholds.Kinds}: {cell.WholeHouseCost:0.00}, bound {cell.BoundCost:0.00}, gap {gap:0.000}"));
            Assert.Equal(gap < 0, cell.Warnings.Contains(KnownAheadYear.BelowBound));
            if (gap > Math.Max(1, 0.002m * cell.BoundCost!.Value))
            {
                wide.Add($"{household.Seed} kind {household.Seed % YearHouseholds.Kinds}: {cell.WholeHouseCost}, bound {cell.BoundCost}");
            }
        }

        output.WriteLine(FormattableString.Invariant($"widest gap {widest:0.000}"));

        Assert.True(wide.Count == 0, string.Join('\n', wide));
    }

    [Fact]
    public void Run_ByNight_IsNoDearerThanTheBestSimpleBehaviourThatIsAsReady()
    {
        var dearer = Dearer(All.Value);
        foreach (var household in All.Value)
        {
            output.WriteLine(household.Words);
        }

        Assert.All(dearer, d => Assert.True(d.Share <= MostShareDearer, $"{d.Household.Words}: {d.Share:P2} dearer"));
        Assert.True(dearer.Count <= (1 - LeastShareNoDearer) * All.Value.Count, string.Join('\n', dearer.Select(d => $"{d.Household.Words}: {d.Share:P2} dearer")));
    }

    [Fact]
    public void Run_ByNightThatForecastsTripsManyTimesTooLong_BreaksWhatMustHold()
    {
        // The fault that the test above must see.
        var faulty = Run(YearHouseholds.Count, seed => new ForecastError { Seed = seed, TripEnergyFactor = 4, BiasK = -15 }).ToArray();
        var dearer = Dearer(faulty);

        Assert.True(dearer.Any(d => d.Share > MostShareDearer) || dearer.Count > (1 - LeastShareNoDearer) * faulty.Length, $"Dearer: {dearer.Count}.");
    }

    [Fact]
    public void Run_ByNightTwice_IsEqual()
    {
        var (first, second) = (YearComparison.Run(YearHouseholds.Of(3)), YearComparison.Run(YearHouseholds.Of(3)));

        Assert.Equal(first.Cells.Select(c => (c.WholeHouseCost, c.Energy)), second.Cells.Select(c => (c.WholeHouseCost, c.Energy)));
    }

    private static IEnumerable<Household> Run(int count, Func<int, ForecastError>? errors)
    {
        var households = new Household[count];
        Parallel.For(0, count, seed =>
        {
            var question = YearHouseholds.Of(seed, errors?.Invoke(seed));
            households[seed] = new Household(seed, question, YearComparison.Run(question).Cells);
        });
        return households;
    }

    private static List<(Household Household, decimal Share)> Dearer(IReadOnlyList<Household> households)
    {
        var dearer = new List<(Household, decimal)>();
        foreach (var household in households)
        {
            var night = household.Night;
            var simple = household.Cells.Where(c => c.Behaviour is UnaidedBehaviour && c.Readiness.Ready >= night.Readiness.Ready).ToArray();
            var best = simple.Length > 0 ? simple.Min(c => c.WholeHouseCost) : decimal.MaxValue;
            if (night.WholeHouseCost > best + 0.000001m)
            {
                dearer.Add((household, (night.WholeHouseCost / best) - 1));
            }
        }

        return dearer;
    }

    private sealed record Household(int Seed, YearCase Case, IReadOnlyList<YearCell> Cells)
    {
        public YearCell Night => Cells.Single(c => c.Behaviour is LeastCostByNight);

        public string Words => FormattableString.Invariant($"{Seed} kind {Seed % YearHouseholds.Kinds}, {Case.SetUps[0].Supply!.VoltageV:0} V: ")
            + string.Join("; ", Cells.Select(c => FormattableString.Invariant(
                $"{c.Behaviour!.Name} {c.WholeHouseCost:0.00} (car {c.CarCost:0.00}, away {c.Away.Cost:0.00}, demand {c.BillWithCar.TotalOf(Tariffs.BillPart.DemandCharge):0.00}) ready {c.Readiness.Ready}/{c.Readiness.OnTarget} of {c.Readiness.Departures}")));
    }
}
