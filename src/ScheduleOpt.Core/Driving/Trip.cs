using NodaTime;

namespace ScheduleOpt.Core.Driving;

/// <summary>One trip: away from home from departure (included) to return (excluded).</summary>
public sealed record Trip
{
    /// <summary>The instant at which the car leaves and its target must have been reached.</summary>
    public required Instant Departure { get; init; }

    /// <summary>The instant at which it is back and plugged in; later than the departure, not always the same day.</summary>
    public required Instant Return { get; init; }

    /// <summary>The legs in order, at least one. The last ends at home.</summary>
    public required IReadOnlyList<TripLeg> Legs { get; init; }

    /// <summary>The state of charge asked for at departure; none: what the trip needs.</summary>
    public StateOfCharge? Target { get; init; }

    /// <summary>What the household calls it; empty if nothing.</summary>
    public string Label { get; init; } = "";

    /// <summary>The departure as the household's clock shows it, where that differs from the instant (a skipped hour).</summary>
    public LocalDateTime? ShownDeparture { get; init; }

    /// <summary>Distance from home to home. [km]</summary>
    public Distance Distance => Legs.Aggregate(Distance.Zero, (sum, leg) => sum + leg.Distance);

    /// <summary>A trip without stops: half of the distance begins at the departure, the other half ends at the return.</summary>
    public static Trip Plain(Instant departure, Instant @return, Distance distance, StateOfCharge? target = null, string label = "")
    {
        var half = Distance.FromKilometres(distance.Kilometres / 2);
        var turn = departure + ((@return - departure) / 2);
        return new Trip
        {
            Departure = departure,
            Return = @return,
            Target = target,
            Label = label,
            Legs = [new TripLeg(half, departure, turn, departure), new TripLeg(half, turn, @return, @return)],
        };
    }
}
