using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>The plan with the choices made, its clocks and calendars, and the events.</summary>
internal sealed class Context
{
    private readonly Dictionary<string, PlanCalendar> calendars = [];
    private readonly Dictionary<string, string> choices = [];

    public Context(JsonObject plan, Question question)
    {
        Plan = plan;
        Question = question;
        var zone = DateTimeZoneProviders.Tzdb[plan.Text("timeZone")!];
        (Legal, Standard) = (new(zone, false), new(zone, true));
        // Two months before the series, for baselines.
        (FirstDate, LastDate) = (Legal.At(question.Start).Date.PlusDays(-63), Legal.At(question.End).Date.PlusDays(2));
        foreach (var option in plan.List("options"))
        {
            // "Each option has the value given beside the plan, otherwise its `default`."
            var name = option.Text("name")!;
            choices[name] = question.Choices.TryGetValue(name, out var choice) ? choice : option.Text("default")!;
        }

        // "Events are those under `past` and those given beside the plan, by the event's name."
        Events = [.. plan.List("events").SelectMany(definition => definition.List("past").Select(past => new CalledEvent(
            definition.Text("name")!, past.DateTime("from"), past.DateTime("to"), past.Number("baselineKwh"), past.Number("baselineAdjustmentKwh") ?? 0))),
            .. question.Events];
        calendars[""] = new(plan, plan, this);
        foreach (var calendar in plan.List("calendars"))
        {
            calendars[calendar.Text("name")!] = new(calendar, plan, this);
        }
    }

    public JsonObject Plan { get; }

    public Question Question { get; }

    public Clock Legal { get; }

    public Clock Standard { get; }

    public LocalDate FirstDate { get; }

    public LocalDate LastDate { get; }

    public IReadOnlyList<CalledEvent> Events { get; }

    /// <summary>The hourly prices of everything that is there.</summary>
    public IEnumerable<JsonObject> HourlyPrices => There("energyCharges").Concat(There("adjustments"))
        .Concat(Plan.Child("export") is { } export ? There(export, "prices") : [])
        .Select(charge => charge.Child("hourlyPrice")).OfType<JsonObject>();

    public IEnumerable<string> CalendarNames => calendars.Keys;

    public IEnumerable<PlanCalendar> Calendars => calendars.Values;

    public PlanCalendar Calendar(JsonObject charge) => calendars[charge.Text("calendar") ?? ""];

    public PlanCalendar Calendar(string name) => calendars[name];

    /// <summary>"`when` matches if, for each option named, the choice is among the values listed."</summary>
    public bool Holds(JsonObject item) => item.Child("when") is not { } when
        || when.All(option => option.Value!.AsArray().Any(value => value!.GetValue<string>() == choices[option.Key]));

    /// <summary>The items of a list that are there under the choices.</summary>
    public IEnumerable<JsonObject> There(string field) => Plan.List(field).Where(Holds);

    public IEnumerable<JsonObject> There(JsonObject parent, string field) => parent.List(field).Where(Holds);
}
