namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A price per kWh for the use of some seasons and periods: flat, in blocks or hour by hour.</summary>
/// <remarks>The blocks count all the use that the charge covers together: one charge over several periods has a shared allowance, one charge
/// for each period has separate ones.</remarks>
public sealed record EnergyCharge : Scope
{
    /// <summary>The layer of charges that name none.</summary>
    public const string DefaultLayer = "energy";

    /// <summary>What the bill calls it.</summary>
    public required string Name { get; init; }

    /// <summary>The set of charges in which each use is priced once, such as supply or delivery.</summary>
    public string Layer { get; init; } = DefaultLayer;

    /// <summary>At least one; limits rise, the last has none. One without limit for a flat price or an hourly one.</summary>
    public required IReadOnlyList<Block> Blocks { get; init; }

    /// <summary>Prices hour by hour in place of the block's; none in most charges.</summary>
    public HourlyPrice? Hourly { get; init; }

    /// <summary>Billed energy over metered energy; limits are of metered energy.</summary>
    public decimal LossFactor { get; init; } = 1;

    /// <summary>What the limits are counted by: month (scaled by the plan's proration and by the share of the billing period's days that the
    /// charge covers), day (times the days that it covers, as one pool for the billing period), thirty days, or billing period.</summary>
    public ChargeUnit LimitPer { get; init; } = ChargeUnit.Month;

    /// <summary>Whether a limit is rounded to a whole kWh (half up) once it has been scaled.</summary>
    public bool LimitInWholeKwh { get; init; }

    /// <summary>Name of the allowance that limits are multiples of.</summary>
    public string? Allowance { get; init; }

    /// <summary>Name of the demand charge whose billed kW limits in kWh per kW are multiplied by.</summary>
    public string? LimitDemand { get; init; }

    /// <summary>Whether all the use is at the price of the block that it ends in.</summary>
    public bool WholeUse { get; init; }

    /// <summary>Whether shared blocks with a price for each period fill in order of time; otherwise in proportion to each period's use.</summary>
    public bool FillsInTimeOrder { get; init; }

    /// <summary>Whether it has more than one block.</summary>
    public bool HasBlocks => Blocks.Count > 1;

    internal bool HasPricesByPeriod => Blocks.Any(b => b.PriceByPeriod is not null);
}
