namespace ScheduleOpt.Scheduling.Households;

/// <summary>One car of a household's problem.</summary>
/// <remarks>Price in <see cref="Problem"/> is the import price at home and the stop's at a stop; at home the household's prices hold.</remarks>
/// <param name="Name">Its name, unique in the household.</param>
/// <param name="Problem">Places, drives, limits and departures; <see cref="ChargingProblem.WallKw"/> at home is the power at <see cref="MostA"/>.</param>
/// <param name="VoltsAcrossPhases">Volts that an ampere of each phase meets: the voltage on one phase, 3 * 230 on three. [V]</param>
/// <param name="MostA">The most current in each interval: continuous rating, unit, on-board charger, limits by hours; 0 where the car can't charge at home. [A, per phase]</param>
/// <param name="LeastA">The least current at which it charges. [A] Above 0.</param>
/// <param name="Rules">How it may run.</param>
public sealed record HouseholdCar(
    string Name, ChargingProblem Problem, double VoltsAcrossPhases, double[] MostA, double LeastA, RunningRules Rules);

/// <summary>A circuit that cars share.</summary>
/// <param name="Cars">Indexes of its cars, two or more.</param>
/// <param name="MostA">The current that all of them together may take, at most its continuous rating. [A, per phase]</param>
public sealed record SharedCircuit(IReadOnlyList<int> Cars, double MostA)
{
    /// <summary>Current that warming before departures takes of it in each interval, so that charging has as much less; none: none. [A, per phase]</summary>
    public double[]? TakenA { get; init; }

    /// <summary>The current that charging may take in an interval. [A, per phase]</summary>
    public double LeftA(int interval) => Math.Max(0, MostA - (TakenA?[interval] ?? 0));
}
