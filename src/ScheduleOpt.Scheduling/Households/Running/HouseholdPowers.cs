namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>What each car takes in each segment or interval.</summary>
internal sealed class HouseholdPowers(int cars, int count)
{
    /// <summary>Average wall power over the whole of it. [kW]</summary>
    public double[][] WallKw { get; } = [.. Enumerable.Range(0, cars).Select(_ => new double[count])];

    /// <summary>Share of it in which the car charges.</summary>
    public double[][] Share { get; } = [.. Enumerable.Range(0, cars).Select(_ => new double[count])];
}
