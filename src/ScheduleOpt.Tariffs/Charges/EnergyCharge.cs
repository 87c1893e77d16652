using NodaTime;

namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A price per kWh for the use of some seasons and periods, flat or in blocks.</summary>
/// <remarks>The blocks count all the use that the charge covers together: one charge over several periods has a shared allowance, one charge
/// for each period has separate ones. Marginal: each kWh at the price of the block it lies in.</remarks>
public sealed record EnergyCharge
{
    /// <summary>What the bill calls it.</summary>
    public required string Name { get; init; }

    /// <summary>Seasons that it covers; empty for all.</summary>
    public IReadOnlyList<string> Seasons { get; init; } = [];

    /// <summary>Periods that it covers; empty for all.</summary>
    public IReadOnlyList<string> Periods { get; init; } = [];

    /// <summary>First date of use that it covers; none where it is not bounded.</summary>
    public LocalDate? From { get; init; }

    /// <summary>Last date of use that it covers; none where it is not bounded.</summary>
    public LocalDate? Until { get; init; }

    /// <summary>At least one; limits rise, the last has none.</summary>
    public required IReadOnlyList<Block> Blocks { get; init; }

    /// <summary>What the limits are counted by: per month, scaled by the plan's proration and by the share of the billing period's days that the
    /// charge covers; or per day, times the days that it covers, as one pool for the billing period.</summary>
    public ChargeUnit LimitPer { get; init; } = ChargeUnit.Month;

    /// <summary>Whether a limit is rounded to a whole kWh (half up) once it has been scaled.</summary>
    public bool LimitInWholeKwh { get; init; }

    /// <summary>Whether it has more than one block.</summary>
    public bool HasBlocks => Blocks.Count > 1;

    internal bool CoversSeason(string season) => Seasons.Count == 0 || Seasons.Contains(season);

    internal bool CoversPeriod(string period) => Periods.Count == 0 || Periods.Contains(period);

    /// <summary>Whether it covers dates in a slice that begins on the given date (none: before all others).</summary>
    internal bool CoversSliceFrom(LocalDate? sliceStart) =>
        (From is null || (sliceStart is { } s && s >= From)) && (Until is null || sliceStart is null || sliceStart <= Until);
}
