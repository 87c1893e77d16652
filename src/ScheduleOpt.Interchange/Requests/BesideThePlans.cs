using NodaTime;
using ScheduleOpt.Tariffs;
using ScheduleOpt.Tariffs.Charges;
using ScheduleOpt.Tariffs.Events;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>What a request gives beside its rate plans: <c>prices</c> and <c>events</c>, which go to every plan that knows their names.</summary>
internal sealed class BesideThePlans
{
    private readonly JsonMembers body;
    private readonly DocumentClock clock;
    private readonly Dictionary<string, PriceSeries> prices;
    private readonly Dictionary<string, Dictionary<string, IReadOnlyList<CalledEvent>>> events;

    /// <summary>Reads what stands beside the plans.</summary>
    /// <param name="body">The request.</param>
    /// <param name="clock">The clock of its local times.</param>
    /// <param name="plans">Its rate plans; none where one is faulty.</param>
    public BesideThePlans(JsonMembers body, DocumentClock clock, IReadOnlyList<ChosenRatePlan>? plans)
    {
        (this.body, this.clock) = (body, clock);
        var known = plans?.SelectMany(p => p.Plan.PriceSeriesNames).Distinct().ToArray();
        prices = PriceSeriesReader.Read(body.Optional("prices"), clock, known);
        events = CalledEventsReader.Read(body.Optional("events"), clock, plans?.Select(p => p.Plan).ToArray());
    }

    /// <summary>What is given beside one of the plans.</summary>
    public BillInput For(ChosenRatePlan chosen) => new()
    {
        Choices = chosen.Choices,
        ServiceKw = chosen.ServiceKw,
        Prices = prices.Where(p => chosen.Plan.PriceSeriesNames.Contains(p.Key)).ToDictionary(p => p.Key, p => p.Value),
        Events = events[chosen.Plan.Id],
    };

    /// <summary>Notes each price series that a plan needs and the request does not give.</summary>
    /// <param name="chosen">The plan.</param>
    /// <param name="span">What is to be priced; none where it can't be told: then only whole series are missed.</param>
    /// <param name="more">What else the asker could do about a missing price; empty for nothing.</param>
    /// <param name="warnings">Where prices that the plan's own rule fills in are told.</param>
    public void CheckPrices(ChosenRatePlan chosen, Interval? span, string more, ICollection<string> warnings)
    {
        var given = body.Optional("prices") is { } field && field.Element.ValueKind == System.Text.Json.JsonValueKind.Object ? field.Element : default(System.Text.Json.JsonElement?);
        foreach (var name in chosen.Made.PriceSeriesNames.Where(n => given?.TryGetProperty(n, out _) != true))
        {
            body.Faults.Add(
                PointerOf(name),
                $"Is missing. The rate plan {chosen.Plan.Id} follows this price series: give its start, intervalMinutes and pricePerKwh.");
        }

        if (span is not { } priced)
        {
            return;
        }

        foreach (var gap in PriceGaps.Of(chosen.Made, priced.Start, priced.End, prices))
        {
            if (gap.FirstMissing is { } first)
            {
                body.Faults.Add(
                    PointerOf(gap.Series) + "/pricePerKwh",
                    $"Must have a price for each interval from {clock.Stamp(priced.Start)} to {clock.Stamp(priced.End)}, as {chosen.Plan.Id} wants it; "
                    + $"the first without one begins at {clock.Stamp(first)}.{more}");
            }
            else
            {
                warnings.Add($"{chosen.Plan.Id}: {gap.Series} has no price for {gap.Filled} intervals, the first at {clock.Stamp(gap.FirstFilled!.Value)}; {Words(gap.Rule)}");
            }
        }
    }

    private static string Words(MissingPrice rule) => rule switch
    {
        MissingPrice.Previous => "by the plan's rule the latest earlier price holds.",
        MissingPrice.DayBefore => "by the plan's rule the price of the day before holds.",
        _ => "the price that the plan states for missing ones holds.",
    };

    private string PointerOf(string series) => JsonField.Child(body.Pointer("prices"), series);
}
