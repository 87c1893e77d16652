using NodaTime;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>One called event as a request states it: from a time to a time, or the date of a kind of event that has its hours in the rate plan.</summary>
internal sealed record StatedEvent(JsonField Field, Instant? From, Instant? To, LocalDate? Date, decimal? BaselineKwh, decimal AdjustmentKwh)
{
    private static readonly LocalDate FirstDate = new(1970, 1, 1), LastDate = new(2099, 12, 31);

    /// <summary>Reads an event; its times are those of the request's clock.</summary>
    public static StatedEvent? Read(JsonField field, DocumentClock clock, Limits kwh, Limits adjustment)
    {
        if (field.Members("date", "from", "to", "baselineKwh", "baselineAdjustmentKwh") is not { } called)
        {
            return null;
        }

        var baseline = called.Optional("baselineKwh")?.Exact(kwh);
        var added = called.Optional("baselineAdjustmentKwh")?.Exact(adjustment) ?? 0;
        if (called.AtMostOne("date", "from") is { } whole && called.Has("date"))
        {
            if (called.Has("to"))
            {
                called.Faults.Add(called.Pointer("to"), "Is used together with from alone.");
            }

            var date = RecurrenceReader.Date(whole);
            if (date is { } day && (day < FirstDate || day > LastDate))
            {
                whole.Fault("Must be a date from 1970 to 2099.");
                return null;
            }

            return date is null ? null : new(field, null, null, date, baseline, added);
        }

        if (called.Has("date"))
        {
            return null;
        }

        var from = clock.Read(called.Required("from"), DocumentClock.Use.Departure);
        var to = clock.Read(called.Required("to"), DocumentClock.Use.Departure);
        return from is { } start && to is { } end ? new(field, start.Instant, end.Instant, null, baseline, added) : null;
    }

    /// <summary>The event on a plan, by the plan's clock; none, with a fault, where it can't be.</summary>
    public CalledEvent? On(RatePlan plan, EventDefinition definition, int mostDays)
    {
        var hours = Date is { } date ? HoursOf(date, definition) : (Local(plan, From!.Value, "from"), Local(plan, To!.Value, "to"));
        if (hours is not ({ } from, { } to))
        {
            return null;
        }

        if (to <= from || to > from.PlusDays(mostDays))
        {
            Field.Faults.Add(JsonField.Child(Field.Pointer, "to"), $"An event must end after it begins, and not last longer than {mostDays} days.", FormattableString.Invariant($"{to:uuuu-MM-dd'T'HH:mm}"));
            return null;
        }

        return new(from, to, BaselineKwh, AdjustmentKwh);
    }

    private (LocalDateTime?, LocalDateTime?) HoursOf(LocalDate date, EventDefinition definition)
    {
        switch (definition.Allowed?.Windows)
        {
            case null or []:
                return (date.AtMidnight(), date.PlusDays(1).AtMidnight());
            case [var (from, to)]:
                var midnight = date.AtMidnight();
                return (midnight.PlusMinutes(from), midnight.PlusMinutes(to > from ? to : to + 1440));
            default:
                Field.Fault($"{definition.Name} may be called in several windows of a day: give from and to.");
                return default;
        }
    }

    private LocalDateTime? Local(RatePlan plan, Instant instant, string name)
    {
        var local = instant.InZone(plan.Zone).LocalDateTime;

        // A rate plan's events are told by the clock, whose repeated hour is the first of the two.
        if (plan.Zone.MapLocal(local) is { Count: 2 } twice && twice.First().ToInstant() != instant)
        {
            Field.Faults.Add(JsonField.Child(Field.Pointer, name), "An event can't begin or end in the second of two hours that the clock shows alike.", FormattableString.Invariant($"{local:uuuu-MM-dd'T'HH:mm}"));
            return null;
        }

        return local;
    }
}
