using NodaTime;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>lifeCycle</c> of a comparison.</summary>
internal static class LifeCycleReader
{
    private static readonly Limits Years = new(1, StudyPeriod.MostYears, "years") { Whole = true };
    private static readonly Limits Rate = new(0, 0.10);
    private static readonly Limits Escalation = new(-0.10, 0.10);

    /// <summary>Reads the terms.</summary>
    /// <param name="field">The object; none: no life-cycle cost is asked for.</param>
    /// <param name="year">The year that is compared: its first day is the base date where none is given.</param>
    public static LifeCycleQuestion? Read(JsonField? field, int? year)
    {
        if (field?.Members("studyYears", "realDiscountRate", "energyEscalation", "baseDate", "loan") is not { } terms)
        {
            return null;
        }

        var before = terms.Faults.Count;
        var years = terms.Number("studyYears", Years);
        var rate = terms.Optional("realDiscountRate")?.Exact(Rate);
        var escalation = terms.Optional("energyEscalation")?.Exact(Escalation);
        var baseDate = IncentiveReader.Date(terms.Optional("baseDate"));
        var loan = LoanOf(terms.Optional("loan"));
        return terms.Faults.Count > before || year is null
            ? null
            : new LifeCycleQuestion(
                new LifeCycleTerms
                {
                    Study = new StudyPeriod(baseDate ?? new LocalDate(year.Value, 1, 1), (int)years!.Value),
                    Rate = rate is { } chosen ? DiscountRate.Chosen(chosen) : DiscountRate.Default,
                    Loan = loan,
                },
                escalation is { } e && e != 0
                    ? EnergyPricePath.Escalating(e, FormattableString.Invariant($"{e * 100:0.##} % a year above general prices, chosen by the household"))
                    : EnergyPricePath.Constant);
    }

    private static Loan? LoanOf(JsonField? field)
    {
        if (field?.Members("nominalRate", "inflation") is not { } loan)
        {
            return null;
        }

        var nominal = loan.Required("nominalRate", "Must be a number from 0 to 0.4.")?.Exact(new(0, 0.40));
        var inflation = loan.Required("inflation", "Must be a number from -0.02 to 0.2.")?.Exact(new(-0.02, 0.20));
        return nominal is { } n && inflation is { } i ? new Loan(n, i) : null;
    }
}
