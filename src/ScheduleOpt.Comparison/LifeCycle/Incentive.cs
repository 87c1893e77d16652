using NodaTime;

namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>A rebate, tax credit or bill credit: a line of its own with its dates and its source, never hidden in a first cost.</summary>
/// <remarks>Kinds that occur: rebate on the unit, rebate on wiring or panel, tax credit, bill credit for enrolment. They end on dates, so one
/// that is not in force on the base date is listed and counts nothing.</remarks>
public sealed record Incentive
{
    /// <summary>What it is called.</summary>
    public required string Name { get; init; }

    /// <summary>Zero or more: once, or a year where <see cref="EachYear"/> says so. [currency]</summary>
    public required decimal Amount { get; init; }

    /// <summary>The document that grants it: title and address.</summary>
    public required string Source { get; init; }

    /// <summary>When that document was read.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>First day on which it can be had; none: open.</summary>
    public LocalDate? From { get; init; }

    /// <summary>Last day on which it can be had; none: open.</summary>
    public LocalDate? Until { get; init; }

    /// <summary>The end of which year it is paid in, 0 at the base date; the first one for a yearly one, where 0 counts as 1.</summary>
    public int Year { get; init; }

    /// <summary>For how many years it is paid; none: once.</summary>
    public int? EachYear { get; init; }

    /// <summary>Whether it can be had on a date.</summary>
    public bool IsInForceOn(LocalDate date) => (From is null || date >= From) && (Until is null || date <= Until);

    /// <summary>What is paid at the end of a year. [currency]</summary>
    internal decimal AmountIn(int year) => EachYear is { } years
        ? year >= Math.Max(1, Year) && year < Math.Max(1, Year) + years ? Amount : 0
        : year == Year ? Amount : 0;
}
