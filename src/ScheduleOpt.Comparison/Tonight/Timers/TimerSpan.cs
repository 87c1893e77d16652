using NodaTime;
using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight.Timers;

/// <summary>The part of a household's problem that decides what energy in one stay costs.</summary>
internal static class TimerSpan
{
    /// <summary>The problem from and until boundaries at which averages of demand begin, so that none is cut; all of it where averages slide.</summary>
    /// <param name="problem">The problem, with all that is charged outside of the stay in its load and terms.</param>
    /// <param name="stay">The stay.</param>
    public static (int From, int Until, HouseholdProblem Cut) Of(HouseholdProblem problem, HomeStay stay)
    {
        var demands = problem.Terms.OfType<DemandTerm>().ToArray();
        var (from, until) = (stay.First, stay.End);
        if (demands.Any(d => d.Sliding))
        {
            return (0, problem.Count, problem);
        }

        bool Begins(int b) => demands.All(d => problem.Boundaries[b].ToUnixTimeSeconds() % (long)d.Averaging.TotalSeconds == 0);
        while (from > 0 && !Begins(from))
        {
            from--;
        }

        while (until < problem.Count && !Begins(until))
        {
            until++;
        }

        return (from, until, problem with
        {
            Boundaries = problem.Boundaries[from..(until + 1)],
            Hours = problem.Hours[from..until],
            HouseKw = problem.HouseKw[from..until],
            SolarKw = problem.SolarKw[from..until],
            ImportPrice = problem.ImportPrice[from..until],
            ExportPrice = problem.ExportPrice[from..until],
            CarbonPrice = problem.CarbonPrice[from..until],
        });
    }
}
