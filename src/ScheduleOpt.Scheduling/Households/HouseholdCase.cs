using NodaTime;
using ScheduleOpt.Core.Pricing;

namespace ScheduleOpt.Scheduling.Households;

/// <summary>A household's charging question in the words of the trade; <see cref="HouseholdProblemBuilder"/> cuts it into intervals.</summary>
public sealed record HouseholdCase
{
    /// <summary>The cars, one at least. All have the same start, end, grid step, prices and temperatures.</summary>
    public required IReadOnlyList<CarCase> Cars { get; init; }

    /// <summary>Expected load of the rest of the house; none: not known, taken as 0. [kW]</summary>
    public PowerForecast? House { get; init; }

    /// <summary>Expected solar production; none: no solar roof. [kW]</summary>
    public PowerForecast? Solar { get; init; }

    /// <summary>The most that the whole house may import; none: no limit. [kW]</summary>
    public double? ImportLimitKw { get; init; }

    /// <summary>The current that all cars on their shared circuit may take together, at most its continuous rating; none: each has its own circuit. [A, per phase]</summary>
    public double? SharedCircuitA { get; init; }

    /// <summary>Price of the emissions of imported energy by time; none: no carbon price. [currency/kWh]</summary>
    public IReadOnlyList<PriceSpan>? CarbonPrice { get; init; }
}

/// <summary>One car of a household's question.</summary>
/// <param name="Name">Its name, unique in the household.</param>
/// <param name="Case">Its question.</param>
/// <param name="Rules">How it may run.</param>
public sealed record CarCase(string Name, ChargingCase Case, RunningRules Rules);

/// <summary>Expected power at regular intervals.</summary>
/// <param name="Start">Start of the first interval.</param>
/// <param name="Interval">Length of each.</param>
/// <param name="AverageKw">Average power of each; zero or more. Before and after, 0. [kW]</param>
public sealed record PowerForecast(Instant Start, Duration Interval, IReadOnlyList<double> AverageKw);
