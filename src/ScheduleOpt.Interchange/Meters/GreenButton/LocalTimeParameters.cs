using NodaTime;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>The clock that a Green Button file states.</summary>
/// <param name="Standard">tzOffset: standard time less UTC. [s]</param>
/// <param name="Saving">dstOffset: what daylight saving adds. [s]</param>
/// <param name="Begins">dstStartRule; none without daylight saving.</param>
/// <param name="Ends">dstEndRule; none without daylight saving.</param>
internal sealed record LocalTimeParameters(int Standard, int Saving, DstRule? Begins, DstRule? Ends)
{
    /// <summary>Offset from UTC at an instant. [s]</summary>
    public int OffsetAt(Instant instant)
    {
        if (Begins is null || Ends is null || Saving == 0)
        {
            return Standard;
        }

        var year = instant.Plus(Duration.FromSeconds(Standard)).InUtc().Year;
        var (begins, ends) = (Begin(year), End(year));
        var saving = begins <= ends ? instant >= begins && instant < ends : instant >= begins || instant < ends;
        return saving ? Standard + Saving : Standard;
    }

    // The rule's clock is the one that is shown until the change: standard time at the beginning, daylight time at the end.
    private Instant Begin(int year) => Begins!.In(year).InUtc().ToInstant() - Duration.FromSeconds(Standard);

    private Instant End(int year) => Ends!.In(year).InUtc().ToInstant() - Duration.FromSeconds(Standard + Saving);

    /// <summary>An instant of a span at which another zone has another offset, looked for on each day and around the zone's changes; none where they
    /// agree.</summary>
    public Instant? DiffersFrom(DateTimeZone zone, Instant start, Instant end)
    {
        // Days, and the hours around each change of the zone.
        var step = Duration.FromDays(Math.Max(1, (end - start).TotalDays / 4000));
        for (var at = start; at < end; at += step)
        {
            if (Differs(zone, at))
            {
                return at;
            }
        }

        var changes = 0;
        foreach (var interval in zone.GetZoneIntervals(start, end))
        {
            if (interval.HasStart && interval.Start > start && changes++ < 2000)
            {
                foreach (var at in new[] { interval.Start - Duration.FromHours(1), interval.Start })
                {
                    if (at >= start && at < end && Differs(zone, at))
                    {
                        return at;
                    }
                }
            }
        }

        return null;
    }

    private bool Differs(DateTimeZone zone, Instant at) => zone.GetUtcOffset(at).Seconds != OffsetAt(at);
}
