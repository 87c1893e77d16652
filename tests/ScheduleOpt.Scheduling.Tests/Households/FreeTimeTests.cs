using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Solvers;
using ScheduleOpt.TestKit;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>While a departure is short, its car does not stay off in time in which no other car has the circuit, and in which it could store what is missing.</summary>
public class FreeTimeTests
{
    private const double Counts = 0.05;

    private static readonly SolveLimit ByWork = SolveLimit.Default with { GuardMilliseconds = 120_000 };

    [Theory]
    [InlineData(2, false)]
    [InlineData(3, false)]
    [InlineData(3, true)]
    public void Schedule_OfCarsThatShareACircuit_LeavesNoFreeTimeUnusedWhileShort(int cars, bool adjustable)
    {
        // Powers of several cars that share an interval are chosen anew by every trial: a few departures keep time that one at the least current would fit in.
        var few = adjustable ? 0.05 : 0;
        var (left, isShort) = (new List<string>(), 0);
        for (var seed = 0; seed < 40; seed++)
        {
            var problem = RandomHouseholds.Problem(seed, new() { Cars = cars, SharedCircuit = true, Demand = seed % 2 == 0, Hours = 40, Rules = new() { Adjustable = adjustable } });
            var schedule = HouseholdScheduler.Solve(problem, ShortfallOrder.InTimeOrder, ByWork);
            var model = HouseholdModel.Of(problem);
            foreach (var (c, k) in model.DeparturesInOrder())
            {
                var own = schedule.Cars[c];
                if (own.TripShortfallKwh[k] + own.TargetShortfallKwh[k] > Counts)
                {
                    isShort++;
                    left.AddRange(FreeBefore(model, schedule, c, k).Take(1).Select(i => $"seed {seed}, car {c}, departure {k}, interval {i}"));
                }
            }
        }

        Assert.True(isShort > 10, $"Only {isShort} are short.");
        Assert.True(left.Count <= few * isShort, $"{left.Count} of {isShort}: {string.Join("; ", left.Take(20))}");
    }

    private static IEnumerable<int> FreeBefore(HouseholdModel model, HouseholdSchedule schedule, int c, int k)
    {
        var (car, own) = (model.Cars[c], schedule.Cars[c]);
        var problem = car.Car.Problem;
        var departure = problem.Departures[k].Boundary;
        foreach (var (first, end) in car.Stays.Where(s => s.End == departure))
        {
            for (var i = first; i < end; i++)
            {
                var room = Enumerable.Range(i + 1, departure - i).Min(b => problem.UpperKwh[b] - own.StoredKwh[b]);
                var gain = Math.Min(room, car.NetKw(i, car.MostKw[i], 1) * problem.Hours[i]);
                if (own.Shares[i] < 1e-6 && gain > Counts && model.Limits.All(l => IsFree(model, schedule, l, c, i)))
                {
                    yield return i;
                }
            }
        }
    }

    private static bool IsFree(HouseholdModel model, HouseholdSchedule schedule, PowerLimit limit, int c, int i)
    {
        var at = Array.IndexOf(limit.Cars, c);
        if (at < 0)
        {
            return true;
        }

        var taken = limit.Cars.Select((other, m) => other != c && schedule.Cars[other].Shares[i] > 1e-6
            ? limit.PerKw[m] * schedule.Cars[other].CurrentA[i] * model.Problem.Cars[other].VoltsAcrossPhases / 1000 : 0).Sum();
        return taken + (limit.PerKw[at] * model.Cars[c].LeastKw[i]) <= limit.Most[i] + 1e-9;
    }
}
