namespace ScheduleOpt.Scheduling.Households;

/// <summary>A runnable schedule of a household's cars, before the replay.</summary>
/// <param name="Cars">For each car, in the problem's order.</param>
/// <param name="Cost">What charging adds to the bill, carbon price included, plus energy at stops; end values left out. [currency]</param>
/// <param name="BillCost">The part of it that is the bill's and the stops'. [currency]</param>
/// <param name="Objective">Cost less the value of what is stored at the end; where the price is negative, overhead and heating earn nothing in it. [currency]</param>
/// <param name="Bound">What no schedule under the rules asked can go below. [currency]</param>
/// <param name="Route">How it was found.</param>
/// <param name="LimitReached">Whether the search ended above the gap that is fine, or a linear programme at its limit; the bound is then the best proven. Limits are counted work; the guard by the clock lies above them.</param>
public sealed record HouseholdSchedule(
    IReadOnlyList<CarSchedule> Cars, double Cost, double BillCost, double Objective, double Bound, SolveRoute Route, bool LimitReached)
{
    /// <summary>Objective above the bound. [currency] Zero or more.</summary>
    public double Gap => Math.Max(0, Objective - Bound);

    /// <summary>Whether ranges of peaks were searched after integers; for measurement.</summary>
    internal bool SearchedPeaks { get; init; }
}

/// <summary>The runnable schedule of one car.</summary>
/// <param name="CurrentA">Current while it charges, for each interval at home; 0 where it does not. [A, per phase]</param>
/// <param name="Shares">Share of each interval in which it charges, at stops too; in [0, 1].</param>
/// <param name="Steps">The same as runs of one current, on whole seconds, in order; neighbours that touch make one window.</param>
/// <param name="StoredKwh">Stored energy at each boundary. [kWh]</param>
/// <param name="TripShortfallKwh">For each departure. [kWh]</param>
/// <param name="TargetShortfallKwh">For each departure. [kWh]</param>
public sealed record CarSchedule(
    double[] CurrentA, double[] Shares, IReadOnlyList<CurrentStep> Steps, double[] StoredKwh, double[] TripShortfallKwh, double[] TargetShortfallKwh);

/// <summary>How a schedule was found.</summary>
public enum SolveRoute
{
    /// <summary>Nothing couples the charges: one car at full power, least cost by shares of time.</summary>
    Shares,

    /// <summary>The linear program's solution could be run within the gap allowed.</summary>
    Linear,

    /// <summary>Integers were needed.</summary>
    Integers,
}
