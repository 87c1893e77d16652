namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>A loan that pays for a set-up: its rate gives a second result beside the one at the discount rate.</summary>
/// <remarks>That a financed household also sees the result at its own rate is our rule, no source.</remarks>
public sealed record Loan
{
    /// <summary>Makes a loan.</summary>
    /// <param name="nominalRate">The contract's effective yearly rate, in money of the day; 0 to 0.40.</param>
    /// <param name="inflation">The general inflation expected, a year; -0.02 to 0.20.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is outside its range.</exception>
    public Loan(decimal nominalRate, decimal inflation)
    {
        if (nominalRate is < 0 or > 0.40m)
        {
            throw new ArgumentOutOfRangeException(nameof(nominalRate), nominalRate, "A loan's yearly rate must lie in 0 to 0.40.");
        }

        if (inflation is < -0.02m or > 0.20m)
        {
            throw new ArgumentOutOfRangeException(nameof(inflation), inflation, "Inflation must lie in -0.02 to 0.20.");
        }

        NominalRate = nominalRate;
        Inflation = inflation;
    }

    /// <summary>The contract's effective yearly rate, in money of the day; a fraction.</summary>
    public decimal NominalRate { get; }

    /// <summary>The general inflation expected, a year; a fraction.</summary>
    public decimal Inflation { get; }
}
