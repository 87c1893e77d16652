namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>A real discount rate, for amounts in constant money of the base date, with its discount factors.</summary>
/// <remarks>Constant money goes with the real rate and current money with the nominal one, never mixed: 10 CFR 436.14(a). We work in constant
/// money alone, so a nominal rate is first freed from inflation. Factors as in NIST Handbook 135: end-of-year amounts.</remarks>
public sealed record DiscountRate
{
    private const decimal LowestReal = -0.20m;
    private const decimal HighestReal = 0.50m;

    private DiscountRate(decimal real, string basis)
    {
        if (real is < LowestReal or > HighestReal)
        {
            throw new ArgumentOutOfRangeException(nameof(real), real, "A real discount rate must lie in -0.20 to 0.50.");
        }

        Real = real;
        Basis = basis;
    }

    /// <summary>3 % real, the floor of 10 CFR 436.14(a)(2) and its value in most later years.</summary>
    /// <remarks>3.0 % real for April 2010 to March 2011: US DOE, news of 15 March 2010. Later years from memory.</remarks>
    public static DiscountRate Default { get; } = new(0.03m, "3 % real: the floor of 10 CFR 436.14(a)(2)");

    /// <summary>The rate, in constant money; a fraction.</summary>
    public decimal Real { get; }

    /// <summary>Where it comes from, for the report.</summary>
    public string Basis { get; }

    /// <summary>A real rate that the household chooses.</summary>
    /// <param name="real">0 to 0.10: 10 CFR 436.14(a)(2) has a floor of 3 % and a ceiling of 10 %; we let a household go down to none.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is outside 0 to 0.10.</exception>
    public static DiscountRate Chosen(decimal real) =>
        real is >= 0 and <= 0.10m
            ? new(real, FormattableString.Invariant($"{real * 100:0.##} % real, chosen by the household"))
            : throw new ArgumentOutOfRangeException(nameof(real), real, "A chosen real discount rate must lie in 0 to 0.10.");

    /// <summary>The real rate behind a nominal one: (1 + nominal) / (1 + inflation) - 1.</summary>
    /// <param name="loan">The loan.</param>
    /// <exception cref="ArgumentOutOfRangeException">The real rate is outside -0.20 to 0.50.</exception>
    public static DiscountRate Of(Loan loan)
    {
        ArgumentNullException.ThrowIfNull(loan);
        return new(
            ((1 + loan.NominalRate) / (1 + loan.Inflation)) - 1,
            FormattableString.Invariant($"the loan's {loan.NominalRate * 100:0.##} % nominal less {loan.Inflation * 100:0.##} % inflation"));
    }

    /// <summary>Present value of 1 at the end of a year: (1 + d)^-t.</summary>
    /// <param name="year">0 (the base date) or later.</param>
    public decimal SinglePresentValue(int year)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(year);
        var factor = 1m;
        for (var t = 0; t < year; t++)
        {
            factor /= 1 + Real;
        }

        return factor;
    }

    /// <summary>Present value of 1 at the end of each of some years: UPV, the sum of (1 + d)^-t.</summary>
    /// <example>3 %, 10 years: 8.530203.</example>
    public decimal UniformPresentValue(int years) => UniformPresentValue(years, EnergyPricePath.Constant);

    /// <summary>Present value of what costs 1 a year at the base date's prices: UPV*, the sum of index(t) * (1 + d)^-t.</summary>
    public decimal UniformPresentValue(int years, EnergyPricePath path)
    {
        ArgumentNullException.ThrowIfNull(path);
        var (sum, factor) = (0m, 1m);
        for (var t = 1; t <= years; t++)
        {
            factor /= 1 + Real;
            sum += path.Index(t) * factor;
        }

        return sum;
    }
}
