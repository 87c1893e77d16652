using NodaTime;
using ScheduleOpt.Core;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>When the car was, or will be, plugged in, and with how much energy.</summary>
/// <param name="At">When it is plugged in.</param>
/// <param name="StateOfCharge">State of charge then.</param>
public sealed record PlugInDocument(Instant At, StateOfCharge StateOfCharge)
{
    /// <summary>A car is expected to be plugged in within this time of the question.</summary>
    internal static readonly Duration Furthest = Duration.FromDays(7);

    /// <summary>Reads <c>plugIn</c>.</summary>
    /// <param name="field">The object.</param>
    /// <param name="asOf">The instant of the question; none where it is faulty.</param>
    /// <param name="clock">Reads times.</param>
    internal static PlugInDocument? Read(JsonField? field, Instant? asOf, DocumentClock clock)
    {
        if (field?.Members("stateOfCharge", "at") is not { } plugIn)
        {
            return null;
        }

        var before = plugIn.Faults.Count;
        var state = plugIn.Number("stateOfCharge", Limits.Fraction);
        var at = clock.Read(plugIn.Optional("at"), DocumentClock.Use.Return)?.Instant ?? asOf;
        if (at < asOf)
        {
            plugIn.Optional("at")!.Value.Fault("Must not be before asOf.");
        }
        else if (at - asOf > Furthest)
        {
            plugIn.Optional("at")!.Value.Fault($"Must be within {Furthest.Days} days of asOf.");
        }

        return plugIn.Faults.Count > before || at is null
            ? null
            : new PlugInDocument(at.Value, StateOfCharge.FromFraction(state!.Value));
    }
}
