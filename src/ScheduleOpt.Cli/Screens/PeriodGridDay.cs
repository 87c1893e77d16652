namespace ScheduleOpt.Cli.Screens;

/// <summary>A kind of day in a period grid.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Rows">The letters of 24 hours for each month.</param>
internal sealed record PeriodGridDay(string Name, IReadOnlyList<(string Month, string Letters)> Rows);

/// <summary>What a letter of a period grid means in one season.</summary>
/// <param name="Letter">The letter.</param>
/// <param name="Period">The period.</param>
/// <param name="Season">The season.</param>
/// <param name="Low">The lowest price of one more kWh. [currency/kWh]</param>
/// <param name="High">The highest. [currency/kWh]</param>
internal sealed record PeriodGridEntry(char Letter, string Period, string Season, decimal Low, decimal High);
