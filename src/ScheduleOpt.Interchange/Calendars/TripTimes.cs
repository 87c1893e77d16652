using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Calendars;

/// <summary>Departure and return of one instance of a trip, resolved.</summary>
/// <param name="Departure">When it is due to leave, and the local time to show.</param>
/// <param name="Return">When it is back.</param>
public readonly record struct TripTimes(LocalMoment Departure, LocalMoment Return)
{
    /// <summary>The departure to show where the clocks skip it; none where it exists. For <c>Trip.ShownDeparture</c>.</summary>
    public LocalDateTime? ShownDeparture => Departure.Reading == LocalReading.Skipped ? Departure.Shown : null;

    /// <summary>What must be said about the clocks; null where there is nothing to say.</summary>
    /// <param name="label">The trip's name.</param>
    /// <param name="asked">The departure as it was stated.</param>
    internal string? Warning(string label, LocalDateTime asked) => Departure.Reading switch
    {
        LocalReading.Skipped => $"'{label}': the clocks skip its departure at {asked:uuuu-MM-dd HH:mm}. "
            + $"It is shown at {Departure.Shown:HH:mm}, and the car is to be ready when they jump.",
        LocalReading.FirstOfTwo => $"'{label}': its departure at {asked:uuuu-MM-dd HH:mm} occurs twice; the first is taken.",
        _ => Return.Reading switch
        {
            LocalReading.Skipped =>
                $"'{label}' of {asked.Date:uuuu-MM-dd}: the clocks skip its return; it is taken as {Return.Shown:uuuu-MM-dd HH:mm}.",
            LocalReading.SecondOfTwo => $"'{label}': its return at {Return.Shown:uuuu-MM-dd HH:mm} occurs twice; the second is taken.",
            _ => null,
        },
    };
}
