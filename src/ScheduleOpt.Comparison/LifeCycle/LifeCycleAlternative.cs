namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>One way to go on, doing nothing included, with all that it costs over the study period.</summary>
/// <remarks>Categories of 10 CFR 436.16: investment, energy, operation and maintenance, replacement, salvage; incentives stand beside them.</remarks>
public sealed record LifeCycleAlternative
{
    /// <summary>What it is called; unique in a comparison.</summary>
    public required string Name { get; init; }

    /// <summary>First costs at the base date.</summary>
    public IReadOnlyList<InvestmentLine> Investment { get; init; } = [];

    /// <summary>Incentives; those not in force on the base date count nothing.</summary>
    public IReadOnlyList<Incentive> Incentives { get; init; } = [];

    /// <summary>Energy: bills and away charging.</summary>
    public IReadOnlyList<EnergyLine> Energy { get; init; } = [];

    /// <summary>Operation and maintenance other than energy.</summary>
    public IReadOnlyList<OperationLine> Operation { get; init; } = [];

    /// <summary>Replacements inside the study period.</summary>
    public IReadOnlyList<ReplacementLine> Replacements { get; init; } = [];

    /// <summary>What is left at its end.</summary>
    public IReadOnlyList<SalvageLine> Salvage { get; init; } = [];

    /// <summary>The same alternative with other first costs in place of its own.</summary>
    public LifeCycleAlternative WithInvestment(decimal amount, string note) =>
        this with { Investment = [new InvestmentLine("First cost", amount, note)] };

    /// <summary>Adds a piece of equipment: its first cost, its replacements and what is left of the last one.</summary>
    /// <remarks>
    /// Replaced each time its life is over before the study period is. What is left is the cost of the last one in proportion to the life
    /// it still has: NIST Handbook 135, residual value by linear proration (from memory, section not confirmed).
    /// </remarks>
    /// <param name="name">What it is.</param>
    /// <param name="cost">Zero or more, each time. [currency]</param>
    /// <param name="lifetimeYears">1 to 40. [a]</param>
    /// <param name="study">The study period.</param>
    /// <param name="note">Whose figures they are.</param>
    /// <exception cref="ArgumentOutOfRangeException">The lifetime is outside 1 to 40 years.</exception>
    public LifeCycleAlternative WithEquipment(string name, decimal cost, int lifetimeYears, StudyPeriod study, string note = "")
    {
        ArgumentNullException.ThrowIfNull(study);
        if (lifetimeYears is < 1 or > StudyPeriod.MostYears)
        {
            throw new ArgumentOutOfRangeException(nameof(lifetimeYears), lifetimeYears, "A lifetime must lie in 1 to 40 years.");
        }

        var replaced = Enumerable.Range(1, study.Years).Where(y => y % lifetimeYears == 0 && y < study.Years).ToArray();
        var age = study.Years - replaced.LastOrDefault();
        var left = cost * (lifetimeYears - age) / lifetimeYears;
        return this with
        {
            Investment = [.. Investment, new InvestmentLine(name, cost, note)],
            Replacements = [.. Replacements, .. replaced.Select(y => new ReplacementLine(name, y, cost))],
            Salvage = left > 0 ? [.. Salvage, new SalvageLine(name, left)] : Salvage,
        };
    }
}
