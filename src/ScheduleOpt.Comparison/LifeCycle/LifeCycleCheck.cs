namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>Finds what contradicts itself in an alternative. Readers of requests ask first: a household never sees an exception.</summary>
public static class LifeCycleCheck
{
    /// <summary>The largest amount of a line. [currency]</summary>
    public const decimal LargestAmount = 1_000_000_000;

    /// <summary>Every contradiction, as a sentence; empty for an alternative that can be worked out.</summary>
    public static IReadOnlyList<string> Contradictions(LifeCycleAlternative alternative, StudyPeriod study)
    {
        ArgumentNullException.ThrowIfNull(alternative);
        ArgumentNullException.ThrowIfNull(study);
        var found = new List<string>();
        var name = alternative.Name;
        foreach (var (line, amount) in alternative.Investment.Select(l => (l.Name, l.Amount))
            .Concat(alternative.Incentives.Select(i => (i.Name, i.Amount)))
            .Concat(alternative.Replacements.Select(l => (l.Name, l.Amount))))
        {
            Require(amount is >= 0 and <= LargestAmount, $"{name}: {line} must be 0 to 1e9 of the currency.");
        }

        foreach (var (line, amount) in alternative.Energy.Select(l => (l.Name, l.AmountPerYear))
            .Concat(alternative.Operation.Select(l => (l.Name, l.AmountPerYear)))
            .Concat(alternative.Salvage.Select(l => (l.Name, l.Amount))))
        {
            Require(Math.Abs(amount) <= LargestAmount, $"{name}: {line} must be at most 1e9 of the currency, either way.");
        }

        foreach (var line in alternative.Replacements)
        {
            Require(line.Year >= 1 && line.Year <= study.Years, $"{name}: the replacement of {line.Name} must fall inside the study period.");
        }

        foreach (var incentive in alternative.Incentives)
        {
            Require(!string.IsNullOrWhiteSpace(incentive.Source), $"{name}: the incentive {incentive.Name} must name its source.");
            Require(incentive.Year >= 0 && incentive.Year <= study.Years, $"{name}: the incentive {incentive.Name} must be paid inside the study period.");
            Require(incentive.EachYear is null or >= 1 and <= StudyPeriod.MostYears, $"{name}: the incentive {incentive.Name} must be paid for 1 to 40 years.");
            Require(
                incentive.From is null || incentive.Until is null || incentive.From <= incentive.Until,
                $"{name}: the incentive {incentive.Name} must begin before it ends.");
        }

        return found;

        void Require(bool holds, string sentence)
        {
            if (!holds)
            {
                found.Add(sentence);
            }
        }
    }

    internal static void ThrowIfContradictory(LifeCycleAlternative alternative, StudyPeriod study)
    {
        var found = Contradictions(alternative, study);
        if (found.Count > 0)
        {
            throw new ArgumentException(string.Join(' ', found), nameof(alternative));
        }
    }
}
