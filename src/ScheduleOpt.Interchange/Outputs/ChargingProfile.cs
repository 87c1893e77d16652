using NodaTime;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Outputs;

/// <summary>A car's schedule until its next departure as the open charge-point protocol limits a charger: one absolute profile of periods.</summary>
/// <remarks>
/// Field rules: the Open Charge Alliance's published descriptions of SetChargingProfile in versions 1.6, 2.0.1 and 2.1, in our own words. A
/// period holds from its start to that of the next; limits have one decimal; there are at most 1,024 periods; amperes are of each phase, watts of
/// all phases; a number of phases that is left out means three, so it is always written.
/// </remarks>
public sealed record ChargingProfile
{
    /// <summary>The most periods of a schedule.</summary>
    public const int MostPeriods = 1024;

    /// <summary>Version and unit.</summary>
    public required ChargingProfileChoice Choice { get; init; }

    /// <summary>The outlet's number at the charger; 0: all.</summary>
    public required int Outlet { get; init; }

    /// <summary>The profile's number: the date from which it holds, with the car's place in the request where cars are listed.</summary>
    public required int Id { get; init; }

    /// <summary>Phases, 1 or 3.</summary>
    public required int Phases { get; init; }

    /// <summary>From when it holds; a whole second.</summary>
    public required Instant ValidFrom { get; init; }

    /// <summary>Until when: the next departure, or the end of the plan.</summary>
    public required Instant ValidTo { get; init; }

    /// <summary>The rate below which the car does not charge, rounded up. [A or W]</summary>
    public required decimal LeastRate { get; init; }

    /// <summary>The limits, in order; the first begins with the profile.</summary>
    public required IReadOnlyList<ChargingProfilePeriod> Periods { get; init; }

    /// <summary>Energy planned until then. [kWh, wall]</summary>
    public required double PlannedKwh { get; init; }

    /// <summary>Energy under the limits as they are written. [kWh, wall] At most what is planned.</summary>
    public required double EnergyKwh { get; init; }

    /// <summary>What whoever sends it must know.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>A limit and when it begins.</summary>
/// <param name="StartSeconds">When it begins. [s after the profile's start]</param>
/// <param name="Limit">The limit, one decimal. [A of each phase, or W of all]</param>
public readonly record struct ChargingProfilePeriod(long StartSeconds, decimal Limit);
