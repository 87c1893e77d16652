using ScheduleOpt.Core.Homes;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>Cuts a household's question into intervals: one grid for all cars, cut also where load, solar, carbon price and the hours and averages of terms change.</summary>
public static class HouseholdProblemBuilder
{
    /// <summary>Builds the problem.</summary>
    /// <exception cref="ArgumentException">No car, cars of different spans, or a car's question is out of order.</exception>
    public static HouseholdProblem Build(HouseholdCase question)
    {
        ArgumentNullException.ThrowIfNull(question);
        throw new NotSupportedException(nameof(Supply));
    }
}
