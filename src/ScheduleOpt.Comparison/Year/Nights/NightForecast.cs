using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Year.Nights;

/// <summary>One planning of a night: what the household believes of the days ahead, without prices.</summary>
/// <param name="First">The year's interval with which the plan begins, and the boundary at which it is made.</param>
/// <param name="Until">The boundary at which the next plan is made: at the next noon at home, or when the car is back from its trip.</param>
/// <param name="Day">Days since the year's first, by the household's clock.</param>
/// <param name="PricesKnownUntil">The year's boundary up to which hourly prices have been published.</param>
/// <param name="Problem">The days ahead; up to <paramref name="Until"/> each interval is one of the year's, later ones of an hour are one.</param>
/// <param name="Starts">For each interval of the problem the year's interval with which it begins, and last the boundary at which the problem ends.</param>
internal sealed record NightForecast(int First, int Until, int Day, int PricesKnownUntil, ChargingProblem Problem, int[] Starts);
