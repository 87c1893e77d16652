using NodaTime;

namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>The years over which alternatives are compared: one base date and one length for all of them.</summary>
/// <remarks>Same study period and base date for every alternative: NIST Handbook 135 (2020). Yearly amounts fall at the end of each year, as in
/// its discount factors; investments at the base date.</remarks>
public sealed record StudyPeriod
{
    /// <summary>The longest study period. [a]</summary>
    /// <remarks>Our limit, far beyond any charging unit's life; the same as in US federal analyses (from memory).</remarks>
    public const int MostYears = 40;

    /// <summary>Makes a study period.</summary>
    /// <param name="baseDate">When the set-up is bought and the first year begins; incentives must be in force on it.</param>
    /// <param name="years">1 to 40. [a]</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is outside 1 to 40 years.</exception>
    public StudyPeriod(LocalDate baseDate, int years)
    {
        if (years is < 1 or > MostYears)
        {
            throw new ArgumentOutOfRangeException(nameof(years), years, "A study period has 1 to 40 years.");
        }

        BaseDate = baseDate;
        Years = years;
    }

    /// <summary>When the set-up is bought and the first year begins.</summary>
    public LocalDate BaseDate { get; }

    /// <summary>Its length. [a]</summary>
    public int Years { get; }
}
