using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;

namespace ScheduleOpt.Tariffs;

/// <summary>One published schedule of charges of one utility, with an effective date. Immutable.</summary>
/// <remarks>A plan that was read from a document has been checked by <see cref="RatePlanCheck"/>; one made in code should be, before it is
/// used: the biller and the price builder rely on it.</remarks>
public sealed record RatePlan
{
    /// <summary>The document's identifier: the file's name without its extension.</summary>
    public required string Id { get; init; }

    /// <summary>The plan's name for people.</summary>
    public required string Name { get; init; }

    /// <summary>Who offers it.</summary>
    public required string Utility { get; init; }

    /// <summary>What a household should know about it; may be empty.</summary>
    public string Description { get; init; } = "";

    /// <summary>Where its figures come from: publisher, title, sheet, date; or that it is invented.</summary>
    public required string Source { get; init; }

    /// <summary>ISO 4217 code of all its money.</summary>
    public required string Currency { get; init; }

    /// <summary>The time zone of its clock windows, its dates and its billing periods.</summary>
    public DateTimeZone Zone => Calendar.Zone;

    /// <summary>First day on which its prices hold.</summary>
    public required LocalDate EffectiveFrom { get; init; }

    /// <summary>Last day on which its prices hold; none while it is current.</summary>
    public LocalDate? EffectiveUntil { get; init; }

    /// <summary>What it is applied to.</summary>
    public required Metering Metering { get; init; }

    /// <summary>When which period holds.</summary>
    public required RateCalendar Calendar { get; init; }

    /// <summary>Fixed charges; may be empty.</summary>
    public IReadOnlyList<CustomerCharge> CustomerCharges { get; init; } = [];

    /// <summary>Prices of energy: each season and period is covered by exactly one.</summary>
    public required IReadOnlyList<EnergyCharge> EnergyCharges { get; init; }

    /// <summary>Amounts per kWh that come on top of the energy charges, or are taken off; several may cover the same use.</summary>
    public IReadOnlyList<EnergyCharge> Adjustments { get; init; } = [];

    /// <summary>Charges for the highest average power in a billing period; may be empty.</summary>
    public IReadOnlyList<DemandCharge> DemandCharges { get; init; } = [];

    /// <summary>The least that a billing period costs before taxes; none in most plans.</summary>
    public MinimumBill? MinimumBill { get; init; }

    /// <summary>Percentages on other lines, in the order in which they are worked out.</summary>
    public IReadOnlyList<Tax> Taxes { get; init; } = [];

    /// <summary>How amounts are rounded.</summary>
    public required Rounding Rounding { get; init; }

    /// <summary>How monthly amounts and limits follow the length of a billing period.</summary>
    public required Proration Proration { get; init; }
}
