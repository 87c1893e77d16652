using NodaTime;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests;

/// <summary>The check accepts what is right and names what is wrong.</summary>
public class ScheduleCheckTests
{
    private const int Cases = 150;

    // What the finding speaks of.
    private static readonly Dictionary<string, string[]> Words = new()
    {
        ["energy"] = ["stored energy"],
        ["time"] = ["stored energy"],
        ["current"] = ["stored energy"],
        ["rating"] = ["continuous rating"],
        ["minimum"] = ["car's minimum"],
        ["whole"] = ["whole number"],
        ["quiet"] = ["hours without charging"],
        ["limit"] = ["above the limit of"],
        ["cost"] = ["costs"],
        ["target"] = ["target shortfall"],
        ["road"] = ["on the road"],
    };

    [Fact]
    public void Findings_OfTheSolversPath_AreNone()
    {
        for (var seed = 0; seed < Cases; seed++)
        {
            var question = RandomCases.Case(seed);
            var problem = ChargingProblemBuilder.Build(question);
            var findings = ScheduleCheck.Findings(problem, Claim(question, problem, Scheduler.Solve(problem)));
            Assert.True(findings.Count == 0, $"seed {seed}: {string.Join("; ", findings)}");
        }
    }

    [Theory]
    [InlineData("energy")]
    [InlineData("time")]
    [InlineData("current")]
    [InlineData("rating")]
    [InlineData("minimum")]
    [InlineData("whole")]
    [InlineData("quiet")]
    [InlineData("limit")]
    [InlineData("cost")]
    [InlineData("target")]
    [InlineData("road")]
    public void Findings_OfAFalseClaim_NameIt(string fault)
    {
        var caught = 0;
        var tried = 0;
        for (var seed = 0; seed < Cases; seed++)
        {
            var question = RandomCases.Case(seed);
            var problem = ChargingProblemBuilder.Build(question);
            var claim = Claim(question, problem, Scheduler.Solve(problem));
            var on = Array.FindIndex(claim.OnHours, h => h > 0.01);
            var road = Array.IndexOf(problem.Place, Place.Road);
            if (on < 0 || road < 0 || problem.Place[on] != Place.Home || problem.Price[on] < 0.01)
            {
                continue;
            }

            tried++;
            switch (fault)
            {
                case "energy":
                    claim.StoredKwh[problem.Count / 2] += 1e-4;
                    break;
                case "time":
                    claim.OnHours[on] *= 0.5;
                    break;
                case "current":
                    claim = claim with { CurrentA = [.. claim.CurrentA.Select(a => a * 0.9)], MinimumCurrentA = 0 };
                    break;
                case "rating":
                    claim = claim with { ContinuousRatingA = claim.CurrentA.Max() - 0.1 };
                    break;
                case "minimum":
                    claim = claim with { MinimumCurrentA = claim.CurrentA[on] + 0.1 };
                    break;
                case "whole":
                    claim = claim with { WholeAmperes = true, CurrentA = [.. claim.CurrentA.Select(a => Math.Floor(a) + 0.4)] };
                    break;
                case "quiet":
                    claim = claim with { NoCharging = [new(problem.Boundaries[on], problem.Boundaries[on] + Duration.FromSeconds(1))] };
                    break;
                case "limit":
                    claim = claim with { CurrentLimits = [new(new(problem.Boundaries[on], problem.Boundaries[on + 1]), claim.CurrentA[on] - 0.1)] };
                    break;
                case "cost":
                    claim = claim with { Cost = claim.Cost + 0.01 };
                    break;
                case "target":
                    claim.TargetShortfallKwh[0] += 0.1;
                    break;
                default:
                    claim.OnHours[road] = 0.1;
                    break;
            }

            var findings = ScheduleCheck.Findings(problem, claim);
            caught += findings.Any(f => Words[fault].Any(f.Contains)) ? 1 : 0;
        }

        Assert.True(tried > 50, $"only {tried} cases could carry the fault");
        Assert.Equal(tried, caught);
    }

    internal static ScheduleClaim Claim(ChargingCase question, ChargingProblem problem, LeastCost least)
    {
        var on = new double[problem.Count];
        var cost = problem.WarmUpCost();
        for (var i = 0; i < on.Length; i++)
        {
            on[i] = least.Shares[i] * problem.Hours[i];
            cost += on[i] * problem.WallKw[i] * problem.Price[i];
        }

        return new ScheduleClaim
        {
            VoltsAcrossPhases = question.Supply?.VoltsAcrossPhases ?? 0,
            CurrentA = [.. problem.MostA],
            ContinuousRatingA = question.Supply?.ContinuousRatingA ?? 0,
            MinimumCurrentA = question.Vehicle.MinimumCurrentA,
            NoCharging = question.NoCharging,
            CurrentLimits = question.CurrentLimits,
            OnHours = on,
            StoredKwh = [.. least.StoredKwh],
            TripShortfallKwh = [.. least.TripShortfallKwh],
            TargetShortfallKwh = [.. least.TargetShortfallKwh],
            Cost = cost,
            WithTaper = false,
        };
    }
}
