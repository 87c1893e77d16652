namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>Alternatives against an explicit reference case.</summary>
/// <param name="ReferenceName">The reference case: as a rule today's set-up, rate plan and habits.</param>
/// <param name="AtDiscountRate">Each alternative at the discount rate, the reference among them, in the order given.</param>
/// <param name="AtLoanRate">The same at the loan's real rate; empty where nothing is financed.</param>
public sealed record LifeCycleComparison(
    string ReferenceName, IReadOnlyList<LifeCycleResult> AtDiscountRate, IReadOnlyList<LifeCycleResult> AtLoanRate)
{
    /// <summary>The alternatives by life-cycle cost at the discount rate, cheapest first; equal ones in the order given.</summary>
    public IEnumerable<LifeCycleResult> Ranked => AtDiscountRate.OrderBy(r => r.Alternative.Total);

    /// <summary>Compares.</summary>
    /// <param name="alternatives">At least one, names unique.</param>
    /// <param name="referenceName">The name of the one that is the reference case: it is always said, never assumed.</param>
    /// <param name="terms">What they share.</param>
    /// <exception cref="ArgumentException">Names that occur twice, a reference that is not among them, or an alternative that contradicts
    /// itself.</exception>
    public static LifeCycleComparison Of(IReadOnlyList<LifeCycleAlternative> alternatives, string referenceName, LifeCycleTerms terms)
    {
        ArgumentNullException.ThrowIfNull(alternatives);
        ArgumentNullException.ThrowIfNull(terms);
        if (alternatives.GroupBy(a => a.Name, StringComparer.Ordinal).Any(g => g.Count() > 1))
        {
            throw new ArgumentException("Each alternative must have a name of its own.", nameof(alternatives));
        }

        var reference = alternatives.FirstOrDefault(a => a.Name == referenceName)
            ?? throw new ArgumentException("The reference case must be one of the alternatives.", nameof(referenceName));
        return new LifeCycleComparison(
            referenceName, At(terms.Rate), terms.Loan is { } loan ? At(DiscountRate.Of(loan)) : []);

        LifeCycleResult[] At(DiscountRate rate)
        {
            var against = LifeCycleCost.Of(reference, terms.Study, rate);
            return [.. alternatives.Select(a => new LifeCycleResult(against, LifeCycleCost.Of(a, terms.Study, rate)))];
        }
    }
}
