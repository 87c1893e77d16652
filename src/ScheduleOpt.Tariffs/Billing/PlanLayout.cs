using NodaTime;
using ScheduleOpt.Tariffs.Calendars;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>A rate plan, its choices made, laid out over real dates.</summary>
internal sealed class PlanLayout
{
    private readonly Dictionary<string, CalendarLayout> byName = [];

    public PlanLayout(RatePlan plan, Instant from, Instant until, BillInput input)
    {
        Plan = plan.For(input.Choices);
        Input = input;
        Events = Plan.Events.ToDictionary(e => e.Name, e => EventCalls.Of(Plan, e, input));
        var calendars = new List<CalendarLayout>(1 + Plan.Calendars.Count);
        CalendarLayout LayOut(string? name, RateCalendar calendar)
        {
            var layout = new CalendarLayout(
                calendars.Count, calendar, Plan.Scopes.Where(s => s.Calendar == name), from, until, EventCalls.Spans(Plan, name, calendar, Events));
            calendars.Add(layout);
            return layout;
        }

        Main = LayOut(null, Plan.Calendar);
        foreach (var (name, calendar) in Plan.Calendars)
        {
            byName.Add(name, LayOut(name, calendar));
        }

        Calendars = [.. calendars];
        CustomerCharges = [.. Plan.CustomerCharges.Select(c => (c, new ScopeLayout(this, c)))];
        EnergyCharges = [.. Plan.EnergyCharges.Select(c => new ChargeLayout(this, c, BillPart.EnergyCharge))];
        Adjustments = [.. Plan.Adjustments.Select(c => new ChargeLayout(this, c, BillPart.Adjustment))];
        DemandCharges = [.. Plan.DemandCharges.Select(c => new DemandLayout(this, c))];
        Credits = [.. Plan.Credits.Select(c => (c, new ScopeLayout(this, c)))];
        ExportPrices = Plan.Export is { Kind: ExportKind.NetBilling } export
            ? [.. export.Prices.Select(c => new ChargeLayout(this, c, BillPart.ExportCredit))]
            : [];
    }

    public RatePlan Plan { get; }

    public BillInput Input { get; }

    /// <summary>The plan's own calendar, then the others.</summary>
    public CalendarLayout[] Calendars { get; }

    public CalendarLayout Main { get; }

    /// <summary>Called events by name, in order of time.</summary>
    public Dictionary<string, CalledEvent[]> Events { get; }

    public (CustomerCharge Charge, ScopeLayout Scope)[] CustomerCharges { get; }

    public ChargeLayout[] EnergyCharges { get; }

    public ChargeLayout[] Adjustments { get; }

    public DemandLayout[] DemandCharges { get; }

    public (Credit Credit, ScopeLayout Scope)[] Credits { get; }

    public ChargeLayout[] ExportPrices { get; }

    public decimal ServiceKw => Input.ServiceKw ?? Plan.ServiceKw;

    public CalendarLayout CalendarOf(Scope scope) => scope.Calendar is { } name ? byName[name] : Main;
}
