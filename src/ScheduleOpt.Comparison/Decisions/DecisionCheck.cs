using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Finds what contradicts itself in a decision. Readers of requests ask first: a household never sees an exception.</summary>
public static class DecisionCheck
{
    /// <summary>Every contradiction, as a sentence; empty for a case that can be run.</summary>
    public static IReadOnlyList<string> Contradictions(DecisionCase question)
    {
        ArgumentNullException.ThrowIfNull(question);
        var found = new List<string>(YearCaseCheck.Contradictions(question.Year));
        if (!question.SetUps.Select(s => s.SetUp).SequenceEqual(question.Year.SetUps))
        {
            found.Add("The money must stand beside the year's set-ups, in their order.");
        }

        if (question.LifeCycle is not null && question.Today is null)
        {
            found.Add("Life-cycle cost needs a reference case: say what today is.");
        }

        if (question.Today is { } today)
        {
            found.AddRange(OfToday(question, today));
        }

        if (question.Uncertainty && CellsOf(question.Year) > DecisionCase.MostCellsForUncertainty)
        {
            found.Add(FormattableString.Invariant(
                $"Uncertainty runs every cell again for each input: at most {DecisionCase.MostCellsForUncertainty} cells; here are {CellsOf(question.Year)}."));
        }

        if (question.LifeCycle is { } asked)
        {
            foreach (var offered in question.SetUps)
            {
                found.AddRange(LifeCycleCheck.Contradictions(
                    new LifeCycleAlternative { Name = offered.SetUp.Name, Incentives = offered.Incentives }, asked.Terms.Study));
            }
        }

        return found;
    }

    private static IEnumerable<string> OfToday(DecisionCase question, CellName today)
    {
        if (question.SetUps.FirstOrDefault(s => s.SetUp.Name == today.SetUp) is not { } offered)
        {
            yield return "Today's set-up must be one of the set-ups.";
            yield break;
        }

        if (!question.Year.RatePlans.Any(p => p.Id == today.RatePlan && p.Metering == Metering.WholeHouse))
        {
            yield return "Today's rate plan must be one of the whole-house rate plans.";
        }

        if (offered.SetUp.Supply is null && today.Behaviour is not null)
        {
            yield return "Public charging alone has no behaviour: leave today's behaviour out.";
        }

        if (offered.SetUp.Supply is not null && !question.Year.Behaviours.Any(b => b.Name == today.Behaviour))
        {
            yield return "Today's behaviour must be one of the behaviours.";
        }

        if (question.LifeCycle is not null && offered.Chosen.Missing.Count > 0)
        {
            yield return $"Today's set-up needs a first cost for: {string.Join(", ", offered.Chosen.Missing)}.";
        }
    }

    private static int CellsOf(YearCase year) =>
        year.SetUps.Sum(s => s.Supply is null ? year.RatePlans.Count(p => p.Metering == Metering.WholeHouse) : year.RatePlans.Count * year.Behaviours.Count);
}
