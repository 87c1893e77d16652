namespace ScheduleOpt.Tariffs;

/// <summary>One line of a bill: quantity times price is the amount, before the plan's rounding.</summary>
/// <param name="Part">The part of the bill it belongs to.</param>
/// <param name="Description">What it is for, in the document's own words.</param>
/// <param name="Quantity">How much of <paramref name="Unit"/>.</param>
/// <param name="Unit">kWh, kW, month, day, year, bill or %; for a percentage the quantity is the percentage and the price one hundredth of its base.</param>
/// <param name="Price">Price of one unit; for prices that change by the hour their mean, rounded. [currency]</param>
/// <param name="Amount">The amount, rounded as the plan says. [currency]</param>
public sealed record BillLine(BillPart Part, string Description, decimal Quantity, string Unit, decimal Price, decimal Amount)
{
    /// <summary>The rule behind it, in words.</summary>
    public string Rule { get; init; } = "";

    /// <summary>Where the document says so; none for a line that no single place says, such as the rounding.</summary>
    public DocumentPlace? Place { get; init; }

    /// <summary>Name of the charge in the document; the description begins with it.</summary>
    public string Charge { get; init; } = Description;

    /// <summary>Layer of an energy charge; none for other lines.</summary>
    public string? Layer { get; init; }

    /// <summary>Whether it is a percentage of other lines.</summary>
    public bool IsPercentage { get; init; }
}
