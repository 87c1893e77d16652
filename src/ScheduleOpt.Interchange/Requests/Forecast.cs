using NodaTime;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Values at regular intervals of the coming days.</summary>
/// <param name="Start">Start of the first interval.</param>
/// <param name="Interval">Length of each.</param>
/// <param name="Values">One value an interval, in the unit of what is expected.</param>
public sealed record Forecast(Instant Start, Duration Interval, double[] Values)
{
    /// <summary>End of the last interval.</summary>
    public Instant End => Start + (Interval * Values.Length);

    /// <summary>Whether it covers a span.</summary>
    public bool Covers(Interval span) => Start <= span.Start && End >= span.End;

    /// <summary>The value at an instant; before the first interval and after the last, 0.</summary>
    public double At(Instant instant)
    {
        var at = Math.Floor((instant - Start) / Interval);
        return at >= 0 && at < Values.Length ? Values[(int)at] : 0;
    }
}
