namespace ScheduleOpt.Tariffs.Charges;

/// <summary>A percentage of other lines: a tax, a surcharge, or (negative) a rebate.</summary>
/// <param name="Name">What the bill calls it.</param>
/// <param name="Percent">-100 to 100. [%]</param>
/// <param name="Parts">The parts of the bill it is taken on.</param>
/// <param name="Taxes">Names of earlier taxes it is taken on as well (tax on tax).</param>
public sealed record Tax(string Name, decimal Percent, IReadOnlyList<BillPart> Parts, IReadOnlyList<string> Taxes);
