using CsCheck;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Tests.Behaviours;

/// <summary>What must hold for every behaviour on every problem.</summary>
public sealed class BehaviourPropertyTests
{
    private const string Seed = "0000KqYzTQa1";
    private const int Cases = 300;

    [Fact]
    public void Run_AnyProblem_KeepsTheEnergyBalance() =>
        Each((problem, _, run) =>
        {
            // Case 53: wall * eta - (overhead + heating) * hours on = change of stored energy + driving - shortfall.
            var constants = problem.Constants;
            var gained = 0.0;
            for (var i = 0; i < problem.Count; i++)
            {
                gained += (run.Replay.WallKwh[i] * constants.ConversionEfficiency)
                    - ((constants.OverheadKw + ChargingModel.HeatingKw(problem.TemperatureC[i], constants)) * run.Replay.OnHours[i]);
                Assert.InRange(run.Shares[i], 0, 1);
                Assert.False(run.Shares[i] > 0 && problem.NetKw[i] <= 0, "Charging where nothing is stored.");
            }

            var used = run.Replay.StoredKwh[^1] - run.Replay.StoredKwh[0]
                + problem.DriveKwh.Sum() - run.Replay.TripShortfallKwh.Sum();
            Assert.Equal(used, gained, 1e-6);
        });

    [Fact]
    public void Run_AnyStay_NeverEndsAboveItsGoal() =>
        Each((problem, _, run) =>
        {
            foreach (var stay in HomeStay.Of(problem))
            {
                var most = Math.Max(stay.GoalKwh, run.Replay.StoredKwh[stay.First]);
                for (var b = stay.First; b <= stay.End; b++)
                {
                    Assert.True(run.Replay.StoredKwh[b] <= most + 1e-9, $"{run.Replay.StoredKwh[b]} kWh above {most} kWh");
                }
            }
        });

    [Fact]
    public void Run_AnyStay_BelowTheMinimumChargesAtOnce() =>
        Each((problem, _, run) =>
        {
            foreach (var stay in HomeStay.Of(problem))
            {
                for (var i = stay.First; i < stay.End; i++)
                {
                    if (run.Replay.StoredKwh[i + 1] < problem.MinimumKwh - 1e-9 && problem.NetKw[i] > 0)
                    {
                        Assert.Equal(1, run.Shares[i]);
                    }
                }
            }
        });

    [Fact]
    public void OnArrival_AnyProblem_IsNeverLessReadyThanTheOthers() =>
        BehaviourCases.Problems.Sample(
            problem =>
            {
                var first = BehaviourSimulator.Run(problem, new OnArrival()).Replay;
                foreach (var behaviour in BehaviourCases.All.Skip(1))
                {
                    var other = BehaviourSimulator.Run(problem, behaviour).Replay;
                    for (var k = 0; k < problem.Departures.Length; k++)
                    {
                        Assert.True(first.TripShortfallKwh[k] <= other.TripShortfallKwh[k] + 1e-6);
                        Assert.True(first.TargetShortfallKwh[k] <= other.TargetShortfallKwh[k] + 1e-6);
                    }
                }
            },
            seed: Seed,
            iter: Cases);

    [Fact]
    public void ByDeparture_AnyProblem_LeavesWithWhatOnArrivalWouldLeaveWith() =>
        BehaviourCases.Problems.Sample(
            problem =>
            {
                // Late is not less: the run begins so that the goal is reached, or on arrival where there is no time to lose.
                var early = BehaviourSimulator.Run(problem, new OnArrival()).Replay.StoredKwh;
                var late = BehaviourSimulator.Run(problem, new ByDeparture()).Replay.StoredKwh;
                foreach (var departure in problem.Departures)
                {
                    Assert.Equal(early[departure.Boundary], late[departure.Boundary], 1e-6);
                }

                Assert.Equal(early[^1], late[^1], 1e-6);
            },
            seed: Seed,
            iter: Cases);

    [Fact]
    public void ByDeparture_AnyStay_ChargesInOneRunThatEndsAtDeparture() =>
        BehaviourCases.Problems.Sample(
            problem =>
            {
                var run = BehaviourSimulator.Run(problem, new ByDeparture());
                foreach (var stay in HomeStay.Of(problem))
                {
                    var begun = false;
                    for (var i = stay.First; i < stay.End; i++)
                    {
                        if (run.Replay.StoredKwh[i] < problem.MinimumKwh || problem.NetKw[i] <= 0)
                        {
                            continue;
                        }

                        Assert.True(!begun || run.Shares[i] > 1 - 1e-6, "The run is broken.");
                        begun |= run.Shares[i] > 0;
                    }
                }
            },
            seed: Seed,
            iter: Cases);

    private static void Each(Action<ChargingProblem, UnaidedBehaviour, BehaviourRun> check) =>
        BehaviourCases.Problems.Sample(
            problem =>
            {
                foreach (var behaviour in BehaviourCases.All)
                {
                    check(problem, behaviour, BehaviourSimulator.Run(problem, behaviour));
                }
            },
            seed: Seed,
            iter: Cases);
}
