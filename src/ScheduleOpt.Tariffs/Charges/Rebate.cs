namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A credit for using less than a baseline during an event; never negative.</summary>
/// <param name="Name">What the bill calls it.</param>
/// <param name="Event">Name of the event.</param>
/// <param name="PricePerKwh">Paid for each kWh below the baseline. [currency/kWh]</param>
/// <param name="BaselineDays">How many days before the event the baseline looks at.</param>
/// <param name="HighestDays">Only the so many highest of them; none for all.</param>
public sealed record Rebate(string Name, string Event, decimal PricePerKwh, int BaselineDays, int? HighestDays)
{
    /// <summary>Options and the choices under which it is there; none: always.</summary>
    public Condition? When { get; init; }

    /// <summary>Where the document says so.</summary>
    public DocumentPlace? Place { get; init; }
}
