namespace ScheduleOpt.Comparison.LifeCycle;

/// <summary>A first cost, at the base date.</summary>
/// <param name="Name">What it is for.</param>
/// <param name="Amount">Zero or more, in constant money. [currency]</param>
/// <param name="Note">Whose figure it is.</param>
public sealed record InvestmentLine(string Name, decimal Amount, string Note = "");

/// <summary>What energy costs in a year at the base date's prices; it follows a price path.</summary>
/// <param name="Name">What it is: the bill, away charging.</param>
/// <param name="AmountPerYear">May be negative (a credit). [currency a year]</param>
/// <param name="Path">How its price moves.</param>
public sealed record EnergyLine(string Name, decimal AmountPerYear, EnergyPricePath Path);

/// <summary>Operation and maintenance other than energy, each year in constant money.</summary>
/// <param name="Name">What it is.</param>
/// <param name="AmountPerYear">May be negative (a payment received each year). [currency a year]</param>
public sealed record OperationLine(string Name, decimal AmountPerYear);

/// <summary>A replacement at the end of a year, less what the old one brings.</summary>
/// <param name="Name">What is replaced.</param>
/// <param name="Year">1 to the study period's last year. [a after the base date]</param>
/// <param name="Amount">Zero or more, in constant money. [currency]</param>
public sealed record ReplacementLine(string Name, int Year, decimal Amount);

/// <summary>What is left at the end of the study period: value in place, resale or scrap, less removal.</summary>
/// <param name="Name">What is left.</param>
/// <param name="Amount">May be negative (removal). [currency]</param>
public sealed record SalvageLine(string Name, decimal Amount);
