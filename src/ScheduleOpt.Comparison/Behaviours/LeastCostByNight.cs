namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>Least cost planned anew at every arrival and every day at home, with what was known then.</summary>
/// <remarks>The same physics, limits and order of aims as <see cref="LeastCostKnownAhead"/>; the gap between the two is the price of not knowing.</remarks>
/// <param name="Errors">What was not known.</param>
public sealed record LeastCostByNight(ForecastError Errors) : Behaviour
{
    /// <summary>The least days that a plan may look ahead. [d]</summary>
    public const int LeastHorizonDays = 2;

    /// <summary>The most days that a plan may look ahead. [d]</summary>
    public const int MostHorizonDays = 14;

    /// <summary>With the default model of errors.</summary>
    public LeastCostByNight()
        : this(new ForecastError())
    {
    }

    /// <summary>Days that each plan looks ahead, 2 to 14, and on to a departure after the second that has 8 h at home before it; there it wishes for the ordinary
    /// limit, so that no plan lives on what comes after it. Default 4. [d]</summary>
    public int HorizonDays { get; init; } = 4;

    /// <inheritdoc/>
    public override string Name => "leastCostByNight";

    /// <inheritdoc/>
    public override string Description => $"least cost planned night by night with what was known that night: {Errors.Words}";
}
