using NodaTime;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Comparison.Behaviours;

/// <summary>Charging begins at the same time by the household's clock every day.</summary>
/// <remarks>
/// A car that comes home less than twelve hours after the start is late for it and begins at once; one that comes home earlier waits for
/// the next start. So with 23:00, coming home at 01:30 charges at once, and a pause at noon between two trips does not charge.
/// </remarks>
/// <param name="At">The time by the household's clock.</param>
/// <param name="Zone">The household's zone.</param>
public sealed record FixedStart(LocalTime At, HouseholdZone Zone) : UnaidedBehaviour
{
    private static readonly Duration Late = Duration.FromHours(12);

    /// <inheritdoc/>
    public override string Name => "fixedStart";

    /// <inheritdoc/>
    public override string Description => FormattableString.Invariant(
        $"charges at full power from {At.Hour:00}:{At.Minute:00} until the goal; a car home less than 12 h after that begins at once");

    internal override Instant StartOf(HomeStay stay, ChargingProblem problem, double storedKwh)
    {
        var arrival = problem.Boundaries[stay.First];
        var day = arrival.InZone(Zone.Zone).Date;
        var last = On(day) <= arrival ? On(day) : On(day.PlusDays(-1));
        if (arrival - last < Late)
        {
            return arrival;
        }

        return On(day) > arrival ? On(day) : On(day.PlusDays(1));
    }

    private Instant On(LocalDate day) => Zone.Departure(day + At).Instant;
}
