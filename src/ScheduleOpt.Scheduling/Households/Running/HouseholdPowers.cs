namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>What each car takes in each segment or interval.</summary>
internal sealed class HouseholdPowers(int cars, int count)
{
    /// <summary>Average wall power over the whole of it. [kW]</summary>
    public double[][] WallKw { get; } = [.. Enumerable.Range(0, cars).Select(_ => new double[count])];

    /// <summary>Share of it in which the car charges.</summary>
    public double[][] Share { get; } = [.. Enumerable.Range(0, cars).Select(_ => new double[count])];

    public HouseholdPowers Copy()
    {
        var copy = new HouseholdPowers(Share.Length, Share[0].Length);
        for (var c = 0; c < Share.Length; c++)
        {
            WallKw[c].CopyTo(copy.WallKw[c], 0);
            Share[c].CopyTo(copy.Share[c], 0);
        }

        return copy;
    }
}
