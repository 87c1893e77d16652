using ScheduleOpt.Comparison.LifeCycle;

namespace ScheduleOpt.Comparison.Decisions;

/// <summary>Money over the years, as it is asked for.</summary>
/// <param name="Terms">Study period, discount rate and loan.</param>
/// <param name="EnergyPrices">How energy prices move, at home and away alike.</param>
public sealed record LifeCycleQuestion(LifeCycleTerms Terms, EnergyPricePath EnergyPrices);
