namespace ScheduleOpt.Tariffs.Charges;

/// <summary>The least that the counted parts of a billing period cost; what is missing is a line of its own, before taxes.</summary>
/// <param name="Amount">Zero or more, per month or per day. [currency]</param>
/// <param name="Per">Per month (scaled by the plan's proration) or per day.</param>
/// <param name="Counts">The parts that count towards it.</param>
public sealed record MinimumBill(decimal Amount, ChargeUnit Per, IReadOnlyList<BillPart> Counts);
