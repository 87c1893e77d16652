using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Choices;
using ScheduleOpt.Tariffs.Events;

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

    /// <summary>Further calendars by name.</summary>
    public IReadOnlyDictionary<string, RateCalendar> Calendars { get; init; } = new Dictionary<string, RateCalendar>();

    /// <summary>Who may take it and for how long, in words; may be empty.</summary>
    public string Eligibility { get; init; } = "";

    /// <summary>Identifier of the plan on which the house stays; none where it is free, or the plan is for the whole house.</summary>
    public string? HousePlan { get; init; }

    /// <summary>Size of the service where the household doesn't say. [kW]</summary>
    public decimal ServiceKw { get; init; } = 1;

    /// <summary>What a household chooses; may be empty.</summary>
    public IReadOnlyList<HouseholdOption> Options { get; init; } = [];

    /// <summary>Allowances that limits of blocks are multiples of.</summary>
    public IReadOnlyList<Allowance> Allowances { get; init; } = [];

    /// <summary>Seasons by billing month; empty for none.</summary>
    public IReadOnlyList<BillingSeason> BillingSeasons { get; init; } = [];

    /// <summary>Which day gives a billing period its month.</summary>
    public BillingMonthDay BillingMonthDay { get; init; } = BillingMonthDay.LastDay;

    /// <summary>Events that the utility calls.</summary>
    public IReadOnlyList<EventDefinition> Events { get; init; } = [];

    /// <summary>Fixed charges; may be empty.</summary>
    public IReadOnlyList<CustomerCharge> CustomerCharges { get; init; } = [];

    /// <summary>Prices of energy: in each layer each season and period is covered by exactly one.</summary>
    public required IReadOnlyList<EnergyCharge> EnergyCharges { get; init; }

    /// <summary>Amounts per kWh that come on top of the energy charges, or are taken off; several may cover the same use.</summary>
    public IReadOnlyList<EnergyCharge> Adjustments { get; init; } = [];

    /// <summary>Charges for power averaged over minutes; may be empty.</summary>
    public IReadOnlyList<DemandCharge> DemandCharges { get; init; } = [];

    /// <summary>Amounts taken off; may be empty.</summary>
    public IReadOnlyList<Credit> Credits { get; init; } = [];

    /// <summary>Credits for using less during events; may be empty.</summary>
    public IReadOnlyList<Rebate> Rebates { get; init; } = [];

    /// <summary>What exported energy is worth; none for nothing.</summary>
    public ExportRule? Export { get; init; }

    /// <summary>The least that a billing period costs; none in most plans.</summary>
    public MinimumBill? MinimumBill { get; init; }

    /// <summary>Percentages on other lines, in the order in which they are worked out.</summary>
    public IReadOnlyList<Tax> Taxes { get; init; } = [];

    /// <summary>How amounts are rounded.</summary>
    public required Rounding Rounding { get; init; }

    /// <summary>How monthly amounts and limits follow the length of a billing period.</summary>
    public required Proration Proration { get; init; }

    /// <summary>The plan as it is under choices: nothing in it depends on one any more.</summary>
    /// <param name="choices">The choice for each option; where one is missing the default holds.</param>
    public RatePlan For(IReadOnlyDictionary<string, string>? choices) => PlanChoices.Made(this, choices);

    /// <summary>Names of the price series that must be given beside it; empty for most plans. Before choices are made: under any of them.</summary>
    public IReadOnlyList<string> PriceSeriesNames =>
        [.. EnergyCharges.Concat(Adjustments).Concat(Export?.Prices ?? []).Select(c => c.Hourly?.Series).OfType<string>().Distinct()];

    /// <summary>Everything that has a scope.</summary>
    internal IEnumerable<Scope> Scopes =>
        CustomerCharges.Concat<Scope>(EnergyCharges).Concat(Adjustments).Concat(DemandCharges).Concat(Credits).Concat(Export?.Prices ?? []);

    /// <summary>The calendar of a charge.</summary>
    internal RateCalendar CalendarOf(Scope scope) => scope.Calendar is { } name ? Calendars[name] : Calendar;

    internal string? BillingSeasonOf(int month) => BillingSeasons.FirstOrDefault(s => s.Months.Contains(month))?.Name;
}
