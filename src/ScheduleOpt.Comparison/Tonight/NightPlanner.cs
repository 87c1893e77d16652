using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>Answers tonight's question: solve, make runnable, replay, check.</summary>
public static class NightPlanner
{
    /// <summary>A shortfall up to this is not called one. [kWh]</summary>
    public const double NegligibleKwh = 0.01;

    /// <summary>Plans the coming nights. Every question that <see cref="HouseholdProblemBuilder"/> accepts has an answer.</summary>
    public static NightPlan Plan(NightQuestion question) => Plan(question, HouseholdCheck.Findings);

    /// <summary>Plans without integers where the gap need not be proven small.</summary>
    internal static NightPlan Plan(NightQuestion question, bool proveBound) => Plan(question, HouseholdCheck.Findings, proveBound);

    /// <summary>Plans with a check of one's own, for tests of what happens when it finds something.</summary>
    internal static NightPlan Plan(NightQuestion question, Func<HouseholdProblem, HouseholdSchedule, HouseholdCase, IReadOnlyList<string>> check, bool proveBound = true)
    {
        ArgumentNullException.ThrowIfNull(question);
        var (problem, schedule) = HouseholdMargins.Solve(question.Case, question.Order, proveBound);
        var arrival = ArrivalRuns.Of(problem);
        var findings = check(problem, schedule, question.Case);
        if (findings.Count == 0)
        {
            var runs = Runs(question, problem, schedule);
            findings = FindingsOf(question, problem, runs);
            if (findings.Count == 0)
            {
                return NightAccount.Of(question, problem, schedule, runs, arrival, findings);
            }
        }

        // A hub must always get a safe answer: charging on arrival within continuous ratings, shared circuit and import limit is one.
        return NightAccount.Of(question, problem, schedule, arrival, arrival, findings);
    }

    /// <summary>What the checks find in runs after their replay.</summary>
    internal static IReadOnlyList<string> FindingsOf(NightQuestion question, HouseholdProblem problem, IReadOnlyList<CarRun> runs) =>
        HouseholdCheck.FindingsAfterReplay(
            problem, [.. runs.Select(r => r.Schedule)], [.. runs.Select(r => r.Replay)], [.. runs.Select(r => r.Earlier)], question.Case);

    /// <summary>What each car does, its windows moved for the taper wherever the checks find nothing in that.</summary>
    internal static CarRun[] Runs(NightQuestion question, HouseholdProblem problem, HouseholdSchedule schedule)
    {
        var corrected = Corrected(problem, schedule, AsPlanned(problem, schedule), _ => true);
        if (FindingsOf(question, problem, corrected).Count == 0)
        {
            return corrected;
        }

        // One car's correction may not fit: that car goes as planned, what the taper leaves out is then reported, and the others keep theirs.
        return Corrected(problem, schedule, AsPlanned(problem, schedule), runs => FindingsOf(question, problem, runs).Count == 0);
    }

    private static CarRun[] Corrected(HouseholdProblem problem, HouseholdSchedule schedule, CarRun[] runs, Func<CarRun[], bool> accepts)
    {
        var currents = schedule.Cars.Select(c => c.CurrentA).ToArray();
        for (var c = 0; c < runs.Length; c++)
        {
            var (planned, asPlanned) = (schedule.Cars[c], runs[c]);
            runs[c] = TaperAllowance.Apply(problem.Cars[c], planned, SpareCurrent.Of(problem, c, currents), asPlanned.Windows);
            runs[c] = accepts(runs) ? runs[c] : asPlanned;
            currents[c] = runs[c].Schedule.CurrentA;
        }

        return runs;
    }

    private static CarRun[] AsPlanned(HouseholdProblem problem, HouseholdSchedule schedule) =>
        [.. problem.Cars.Zip(schedule.Cars, (car, planned) => CarRun.Of(car, planned, planned.CurrentA, CarRun.WindowsOf(planned.Steps)))];
}
