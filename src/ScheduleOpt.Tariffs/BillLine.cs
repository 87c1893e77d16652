namespace ScheduleOpt.Tariffs;

/// <summary>One line of a bill: quantity times price is the amount, before the plan's rounding.</summary>
/// <param name="Part">The part of the bill it belongs to.</param>
/// <param name="Description">What it is for, in the document's own words.</param>
/// <param name="Quantity">How much of <paramref name="Unit"/>.</param>
/// <param name="Unit">kWh, kW, month, day, bill or %; for a percentage the quantity is the percentage and the price one hundredth of its base.</param>
/// <param name="Price">Price of one unit. [currency]</param>
/// <param name="Amount">The amount, rounded as the plan says. [currency]</param>
public sealed record BillLine(BillPart Part, string Description, decimal Quantity, string Unit, decimal Price, decimal Amount);
