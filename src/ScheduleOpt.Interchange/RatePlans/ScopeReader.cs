using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Choices;

namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>What charges of a plan may refer to, and how they say when they hold.</summary>
internal sealed record ScopeReader(
    RateCalendar Own,
    IReadOnlyDictionary<string, RateCalendar> Others,
    IReadOnlyList<HouseholdOption> Options,
    IReadOnlyList<BillingSeason> BillingSeasons)
{
    /// <summary>The calendar that a charge names; the plan's own where it names none.</summary>
    public RateCalendar CalendarOf(Field field, out string? name)
    {
        name = null;
        if (!field.Exists)
        {
            return Own;
        }

        var text = field.Text(40);
        if (text.Length > 0 && Others.TryGetValue(text, out var calendar))
        {
            name = text;
            return calendar;
        }

        if (text.Length > 0)
        {
            field.Fault($"It must name one of the calendars: {string.Join(", ", Others.Keys.DefaultIfEmpty("none"))}.");
        }

        return Own;
    }

    /// <summary>A charge with its scope.</summary>
    public T Scoped<T>(Field field, T charge, bool byPeriod = true)
        where T : Scope
    {
        var calendar = CalendarOf(field["calendar"], out var name);
        return (T)(charge with
        {
            When = ConditionReader.Read(field["when"], Options),
            Calendar = name,
            Seasons = field["seasons"].Names([.. calendar.Seasons.Select(s => s.Name)], "seasons"),
            Periods = byPeriod ? field["periods"].Names([.. calendar.Periods], "periods") : [],
            BillingSeasons = field["billingSeasons"].Names([.. BillingSeasons.Select(s => s.Name)], "billingSeasons"),
            From = field["from"].OptionalDate(),
            Until = field["until"].OptionalDate(),
            Place = field.Place,
        });
    }
}
