using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Tests.Options;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>A schedule whose current changes, through the full physics.</summary>
public class HouseholdReplayTests
{
    [Fact]
    public void TwoCurrents_StoreAndCostWhatThePencilSays()
    {
        // 23:00Z to 00:00Z at 16 A, 3.84 kW: 0.93 * 3.84 - 0.22 = 3.3512 kWh; 00:00Z to 00:30Z at 32 A: 6.9224 / 2 kWh. Wall 3.84 + 3.84 kWh at 0.10.
        var problem = HouseholdProblemBuilder.Build(Houses.One(rules: new RunningRules { Adjustable = true }));
        var (shares, currents) = (new double[problem.Count], new double[problem.Count]);
        for (var i = 0; i < problem.Count; i++)
        {
            var at = problem.Boundaries[i];
            currents[i] = at >= Nights.At(23) && at < Nights.At(24) ? 16 : at >= Nights.At(24) && at < Nights.At(24, 30) ? 32 : 0;
            shares[i] = currents[i] > 0 ? 1 : 0;
        }

        CurrentStep[] steps = [new(Nights.At(23), Nights.At(24), 16), new(Nights.At(24), Nights.At(24, 30), 32)];
        var schedule = Houses.Schedule(problem, [Houses.OfShares(problem.Cars[0], shares, currents, steps)]);
        var replay = Assert.Single(HouseholdReplay.Run(problem, schedule));
        Assert.Equal(30 + 3.3512 + 3.4612, replay.StoredKwh[problem.Cars[0].Problem.Departures[0].Boundary], 9);
        Assert.Equal(7.68, replay.WallKwh.Sum(), 9);
        Assert.Equal(0.768, HouseholdBill.Of(problem, HouseholdBill.ChargingKw(problem, [replay])).Bill, 9);
        Assert.Empty(HouseholdCheck.Findings(problem, schedule));
    }

    [Fact]
    public void Warming_IsInWhatTheCarTakesAndNotInWhatChargingCosts()
    {
        var problem = HouseholdProblemBuilder.Build(Houses.One(Nights.Plain(-10) with { WarmUp = new(Duration.FromMinutes(30), 2, 1, 0) }));
        var schedule = Houses.EachAlone(problem);
        var replay = HouseholdReplay.Run(problem, schedule)[0];
        var charging = HouseholdBill.ChargingKw(problem, [replay]);
        Assert.Equal(replay.WallKwh.Sum() - 4, charging.Zip(problem.Hours, (p, h) => p * h).Sum(), 9);
        Assert.Equal(schedule.Cost, HouseholdBill.Of(problem, charging).Total, 6);
    }

    [Fact]
    public void CloseToFull_TheTaperTakesLess()
    {
        // From 99 % at 7.68 kW: the taper begins at 97.3 %, so the car takes less than its power.
        var full = Nights.Plain(target: 1) with { PluggedInAt = StateOfCharge.FromFraction(0.99) };
        var problem = ChargingProblemBuilder.Build(full);
        var shares = new double[problem.Count];
        shares[0] = 1;
        var half = problem.WallKw.Select(w => w / 2).ToArray();
        Assert.True(Replay.Run(problem, shares).WallKwh[0] < Nights.FullKw / 4);
        Assert.True(Replay.Run(problem, shares, wallKw: half).WallKwh[0] < Nights.FullKw / 8 + 1e-9);
        Assert.Equal(Replay.Run(problem, shares).StoredKwh, Replay.Run(problem, shares, wallKw: problem.WallKw).StoredKwh);
    }

    [Fact]
    public void WindowSteps_PartWhereTheCurrentChanges()
    {
        var problem = ChargingProblemBuilder.Build(Nights.Plain() with { CurrentLimits = [new(new(Nights.At(24), Nights.At(25)), 10)] });
        var steps = WindowSteps.Of(problem.Boundaries, problem.MostA, [new(Nights.At(23, 40), Nights.At(25, 10)), new(Nights.At(26), Nights.At(27))]);
        CurrentStep[] wanted =
        [
            new(Nights.At(23, 40), Nights.At(24), 32), new(Nights.At(24), Nights.At(25), 10), new(Nights.At(25), Nights.At(25, 10), 32),
            new(Nights.At(26), Nights.At(27), 32),
        ];
        Assert.Equal(wanted, steps);
    }
}
