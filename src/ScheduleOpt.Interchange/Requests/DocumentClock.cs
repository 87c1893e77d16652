using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the times of a document in the household's zone.</summary>
/// <remarks>
/// A time is RFC 3339 with an offset, optionally with the zone in brackets (RFC 9557), or a local time without an offset. An offset that
/// the zone does not have at that instant contradicts the zone; <c>Z</c> says nothing about the zone (RFC 9557, section 2) and never does.
/// </remarks>
internal sealed class DocumentClock(HouseholdZone? zone, ICollection<string> warnings)
{
    private const string Rule =
        "Must be a time such as 2026-01-14T17:30:00-06:00, or a local one such as 2026-01-14T17:30, of whole seconds, from 1970 to 2100.";

    private static readonly Instant Earliest = Instant.FromUtc(1970, 1, 1, 0, 0);
    private static readonly Instant Latest = Instant.FromUtc(2100, 1, 1, 0, 0);

    private static readonly LocalDateTimePattern[] LocalPatterns =
    [
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm':'ss"),
    ];

    /// <summary>How a local time without an offset becomes an instant.</summary>
    internal enum Use
    {
        /// <summary>The first of two occurrences; the instant of the gap where it is skipped.</summary>
        Departure,

        /// <summary>The second of two occurrences; shifted forward where it is skipped.</summary>
        Return,
    }

    /// <summary>The zone; none where the document's own is faulty: syntax is still checked then.</summary>
    public HouseholdZone? Zone { get; } = zone;

    /// <summary>Reads a time.</summary>
    /// <returns>Null where it is faulty, or where the zone is.</returns>
    public LocalMoment? Read(JsonField? maybe, Use use)
    {
        if (maybe is not { } field)
        {
            return null;
        }

        if (field.Element.ValueKind != JsonValueKind.String || field.Element.GetString() is not { Length: <= 64 } text)
        {
            field.Fault(Rule);
            return null;
        }

        if (Local(text) is { } local)
        {
            return FromLocal(field, local, use);
        }

        var bracket = text.IndexOf('[', StringComparison.Ordinal);
        var stamp = OffsetDateTimePattern.Rfc3339.Parse(bracket < 0 ? text : text[..bracket]);
        if (!stamp.Success || !InRange(stamp.Value.ToInstant()))
        {
            field.Fault(Rule);
            return null;
        }

        return FromOffset(field, stamp.Value, text, bracket);
    }

    private static LocalDateTime? Local(string text)
    {
        foreach (var pattern in LocalPatterns)
        {
            if (pattern.Parse(text) is { Success: true } local)
            {
                return local.Value;
            }
        }

        return null;
    }

    private static bool InRange(Instant instant) =>
        instant >= Earliest && instant <= Latest && instant == Instant.FromUnixTimeSeconds(instant.ToUnixTimeSeconds());

    private LocalMoment? FromLocal(JsonField field, LocalDateTime local, Use use)
    {
        if (local.Year is < 1970 or >= 2100)
        {
            field.Fault(Rule);
            return null;
        }

        if (Zone is null)
        {
            return null;
        }

        var moment = use == Use.Return ? Zone.Return(local) : Zone.Departure(local);
        if (moment.Reading != LocalReading.Unique)
        {
            warnings.Add(Sentence(field.Pointer, local, moment));
        }

        return moment;
    }

    private string Sentence(string pointer, LocalDateTime local, LocalMoment moment)
    {
        var shown = LocalPatterns[0].Format(local);
        return moment.Reading switch
        {
            LocalReading.Skipped =>
                $"{pointer}: the clocks jump over {shown}; it is read as {Stamp(moment.Instant)} "
                + $"and shown as {LocalPatterns[0].Format(moment.Shown)}.",
            LocalReading.FirstOfTwo => $"{pointer}: {shown} occurs twice; the first, {Stamp(moment.Instant)}, was taken.",
            _ => $"{pointer}: {shown} occurs twice; the second, {Stamp(moment.Instant)}, was taken.",
        };
    }

    /// <summary>An instant in the household's offset, RFC 3339.</summary>
    public string Stamp(Instant instant) => OffsetDateTimePattern.Rfc3339.Format(instant.InZone(Zone!.Zone).ToOffsetDateTime());

    private LocalMoment? FromOffset(JsonField field, OffsetDateTime stamp, string text, int bracket)
    {
        if (Zone is null)
        {
            return null;
        }

        var zoned = stamp.ToInstant().InZone(Zone.Zone);
        if (bracket >= 0 && text[bracket..] != $"[{Zone.Zone.Id}]")
        {
            field.Fault($"The zone in brackets must be the request's own, [{Zone.Zone.Id}].");
            return null;
        }

        var end = bracket < 0 ? text.Length : bracket;
        if (text[end - 1] != 'Z' && zoned.Offset != stamp.Offset)
        {
            field.Fault($"The offset {stamp.Offset:m} contradicts the zone {Zone.Zone.Id}, which is at {zoned.Offset:m} then.");
            return null;
        }

        return new(zoned.ToInstant(), zoned.LocalDateTime, LocalReading.Unique);
    }
}
