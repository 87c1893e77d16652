using NodaTime;

namespace ScheduleOpt.Tariffs.Charges;

/// <summary>When a charge holds: by dates, seasons and periods of use, by billing season, and by what the household chose.</summary>
public abstract record Scope
{
    /// <summary>Options and the choices under which it is there; none: always.</summary>
    public Condition? When { get; init; }

    /// <summary>Name of the calendar whose seasons and periods are meant; none for the plan's own.</summary>
    public string? Calendar { get; init; }

    /// <summary>Seasons that it covers; empty for all.</summary>
    public IReadOnlyList<string> Seasons { get; init; } = [];

    /// <summary>Periods that it covers; empty for all.</summary>
    public IReadOnlyList<string> Periods { get; init; } = [];

    /// <summary>Billing seasons in which it is there; empty for all.</summary>
    public IReadOnlyList<string> BillingSeasons { get; init; } = [];

    /// <summary>First date of use that it covers; none where it is not bounded.</summary>
    public LocalDate? From { get; init; }

    /// <summary>Last date of use that it covers; none where it is not bounded.</summary>
    public LocalDate? Until { get; init; }

    /// <summary>Where the document says so; none for a charge made in code.</summary>
    public DocumentPlace? Place { get; init; }

    internal bool CoversSeason(string season) => Seasons.Count == 0 || Seasons.Contains(season);

    internal bool CoversPeriod(string period) => Periods.Count == 0 || Periods.Contains(period);

    internal bool CoversBillingSeason(string? season) => BillingSeasons.Count == 0 || (season is not null && BillingSeasons.Contains(season));

    /// <summary>Whether it covers dates in a slice that begins on the given date (none: before all others).</summary>
    internal bool CoversSliceFrom(LocalDate? sliceStart) =>
        (From is null || (sliceStart is { } s && s >= From)) && (Until is null || sliceStart is null || sliceStart <= Until);
}
