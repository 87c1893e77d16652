using NodaTime;
using ScheduleOpt.Core.Driving;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>One trip as a document gives it: its first instance, and how it recurs.</summary>
/// <param name="Pointer">Where it stands.</param>
/// <param name="First">The trip, or the first of its instances.</param>
/// <param name="LocalDeparture">The departure on the household's clock.</param>
/// <param name="LocalReturn">The return on the household's clock.</param>
/// <param name="Recurrence">How it recurs; none: it does not.</param>
internal sealed record TripDocument(
    string Pointer, Trip First, LocalDateTime LocalDeparture, LocalDateTime LocalReturn, TripRecurrenceDocument? Recurrence);

/// <summary>How a trip recurs.</summary>
/// <param name="Rule">A recurrence rule of RFC 5545, section 3.3.10, without its name.</param>
/// <param name="ExceptDates">Local dates of departure that are left out.</param>
internal sealed record TripRecurrenceDocument(string Rule, IReadOnlyList<LocalDate> ExceptDates);
