using System.Diagnostics;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.TestKit;
namespace ScheduleOpt.Scheduling.Tests.Households;
public class Explore
{
    [Fact]
    public void Run()
    {
        var lines = new List<string>();
        for (var seed = 0; seed < 200; seed++)
        {
            var p = RandomHouseholds.Small(seed);
            var t = Stopwatch.GetTimestamp();
            try {
            var s = HouseholdScheduler.Solve(p);
            lines.Add($"{seed} n={p.Count} cars={p.Cars.Count} {s.Route} obj={s.Objective:F4} bound={s.Bound:F4} gap={s.Gap:F5} lim={s.LimitReached} trip={s.Cars.Sum(c=>c.TripShortfallKwh.Sum()):F3} target={s.Cars.Sum(c=>c.TargetShortfallKwh.Sum()):F3} ms={Stopwatch.GetElapsedTime(t).TotalMilliseconds:F1} {p.Cars[0].Rules}");
            } catch (Exception e) { lines.Add($"{seed} {e}"); }
        }
        File.WriteAllLines("/tmp/explore_hs.txt", lines);
    }
}
