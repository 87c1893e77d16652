namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>Least cost with the whole year known: no household that is as ready and keeps the limits does better.</summary>
/// <remarks>It spares trip shortfall first and keeps the ordinary limit except shortly before a trip that needs more. A behaviour without
/// help that dwells above the limit, or leaves some trips short, may show a lower cost.</remarks>
public sealed record LeastCostKnownAhead : Behaviour
{
    /// <inheritdoc/>
    public override string Name => "leastCostKnownAhead";

    /// <inheritdoc/>
    public override string Description => "least cost with prices, temperatures and trips of the whole year known ahead";
}
