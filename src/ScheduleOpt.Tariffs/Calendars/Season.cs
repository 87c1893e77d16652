using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>The days of every year to which a set of charges applies.</summary>
/// <param name="Name">Its name in the document.</param>
/// <param name="Ranges">One or more ranges of days; together the seasons hold each day of a leap year exactly once.</param>
public sealed record Season(string Name, IReadOnlyList<SeasonRange> Ranges);

/// <summary>A range of days by month and day, the same every year.</summary>
/// <param name="From">First day, included.</param>
/// <param name="To">Last day, included; before <paramref name="From"/> where the range runs over the end of the year.</param>
public sealed record SeasonRange(AnnualDate From, AnnualDate To)
{
    /// <summary>Whether a day of a leap year lies in the range.</summary>
    public bool Contains(AnnualDate day) => From <= To ? day >= From && day <= To : day >= From || day <= To;
}
