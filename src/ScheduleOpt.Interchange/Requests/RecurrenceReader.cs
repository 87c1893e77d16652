using System.Text.Json;
using NodaTime;
using NodaTime.Text;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads <c>recurrence</c> and <c>exceptDates</c> of a trip; the rule itself is read when it is expanded.</summary>
internal static class RecurrenceReader
{
    private const int MostExceptDates = 400;

    /// <summary>Reads the recurrence; null where there is none or it is faulty.</summary>
    public static TripRecurrenceDocument? Read(JsonMembers trip)
    {
        var rule = trip.Optional("recurrence")?.Text(500);
        var dates = trip.Optional("exceptDates")?.Items(0, MostExceptDates, "dates")?.Select(Date).OfType<LocalDate>().ToArray() ?? [];
        if (trip.Has("exceptDates") && !trip.Has("recurrence"))
        {
            trip.Faults.Add(trip.Pointer("exceptDates"), "Is used together with recurrence alone.");
        }

        return rule is null ? null : new(rule, dates);
    }

    /// <summary>Reads a local date.</summary>
    public static LocalDate? Date(JsonField field)
    {
        if (field.Element.ValueKind == JsonValueKind.String
            && LocalDatePattern.Iso.Parse(field.Element.GetString()!) is { Success: true } date)
        {
            return date.Value;
        }

        field.Fault("Must be a date such as 2026-01-14.");
        return null;
    }
}
