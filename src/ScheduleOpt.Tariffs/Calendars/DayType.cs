using NodaTime;

namespace ScheduleOpt.Tariffs.Calendars;

/// <summary>A kind of day, such as weekday, weekend or holiday.</summary>
/// <param name="Name">Its name in the document.</param>
/// <param name="Days">Days of the week that are of this kind unless a holiday says otherwise; empty for a kind that only holidays have.</param>
public sealed record DayType(string Name, IReadOnlyList<IsoDayOfWeek> Days);
