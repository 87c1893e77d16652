using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>What is proven of schedules that may leave more unmet than they must: where the full physics leave more unmet than a schedule, its own bound lies too high for what is left.</summary>
public static class HouseholdBound
{
    // Bounds of stored energy are no wishes: a run may pass below them as far as it does. [kWh]
    private const double AnyKwh = 1e4;

    /// <summary>The least objective with so much unmet; null where nothing is proven. [currency]</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="tripKwh">Trip shortfalls that may be, by car and departure. [kWh]</param>
    /// <param name="targetKwh">Target shortfalls that may be, by car and departure. [kWh]</param>
    /// <param name="order">Which of them are held one by one.</param>
    public static double? With(HouseholdProblem problem, double[][] tripKwh, double[][] targetKwh, ShortfallOrder order)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var grid = Segments.Of(HouseholdModel.Of(problem));
        var held = new HouseholdShortfalls(AnyKwh, tripKwh, targetKwh, [.. problem.Cars.Select(c => c.Problem.FinalKwh ?? 0)]);
        return HouseholdRelaxation.BoundWith(grid, held, order) is var bound && double.IsFinite(bound) ? bound : null;
    }
}
