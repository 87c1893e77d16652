namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>Least cost with the whole year known: no household can do better, and none knows that much.</summary>
public sealed record LeastCostKnownAhead : Behaviour
{
    /// <inheritdoc/>
    public override string Name => "leastCostKnownAhead";

    /// <inheritdoc/>
    public override string Description => "least cost with prices, temperatures and trips of the whole year known ahead";
}
