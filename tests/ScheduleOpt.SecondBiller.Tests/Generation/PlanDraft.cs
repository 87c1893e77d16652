using System.Text.Json.Nodes;
using NodaTime;

namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>A random rate plan that is valid by the schema and by the reader's rules, with what is given beside it.</summary>
internal sealed partial class PlanDraft(Draw draw, SeriesDraft series)
{
    private static readonly string[] PartNames = ["customerCharge", "energyCharge", "demandCharge", "adjustment", "credit", "exportCredit", "minimumBill"];

    private readonly JsonObject plan = [];
    private readonly SortedSet<string> features = [];
    private readonly Dictionary<string, CalendarDraft> calendars = [];
    private readonly List<(string Name, string[] Choices)> options = [];
    private readonly List<string> billingSeasons = [];
    private readonly List<string> demandNames = [];
    private readonly List<string> chargeNames = [];
    private readonly List<CalledEvent> given = [];
    private readonly Dictionary<string, HourlyPrices> prices = [];
    private readonly Dictionary<string, string> choices = [];
    private int counter;

    public Pair Finish(int seed)
    {
        AddHead();
        AddOptions();
        AddCalendars();
        AddEvents();
        AddCustomerCharges();
        AddDemandCharges();
        AddEnergyCharges();
        AddAdjustments();
        AddCredits();
        AddRebates();
        AddExport();
        AddMinimumBill();
        AddTaxes();
        var question = series.Question with { Choices = choices, Events = given, Prices = prices, Carried = CarriedIn() };
        if (plan["customerCharges"]!.AsArray().Any(charge => charge!["perServiceKw"] is not null))
        {
            if (draw.Chance(0.5))
            {
                plan["serviceKw"] = draw.Number(1, 20, 1);
            }

            question = plan["serviceKw"] is null || draw.Chance(0.3) ? question with { ServiceKw = draw.Number(1, 20, 1) } : question;
        }

        return new(seed, plan, question, features);
    }

    /// <summary>Adds a feature with some probability, and remembers that it is there.</summary>
    private bool With(string feature, double probability)
    {
        var chosen = draw.Chance(probability);
        if (chosen)
        {
            features.Add(feature);
        }

        return chosen;
    }

    private string Named(string kind)
    {
        var name = $"{kind} {++counter}";
        chargeNames.Add(name);
        return name;
    }

    private static string Text(LocalDate date) => NodaTime.Text.LocalDatePattern.Iso.Format(date);

    private static string MonthDay(LocalDate date) => $"{date.Month:00}-{date.Day:00}";

    private static string Clock(int minute) => $"{minute / 60:00}:{minute % 60:00}";

    private static JsonObject Object(params (string Name, JsonNode? Value)[] fields) =>
        new(fields.Where(field => field.Value is not null).Select(field => KeyValuePair.Create(field.Name, field.Value)));

    private void AddHead()
    {
        plan["name"] = "Drawn plan";
        plan["utility"] = "Nobody (drawn at random)";
        plan["source"] = "Drawn at random.";
        plan["currency"] = "USD";
        plan["timeZone"] = series.Zone;
        plan["effective"] = Object(("from", "2015-01-01"));
        plan["metering"] = draw.Of("wholeHouse", "wholeHouse", "separateMeter", "submeter");
        if (With("clock standard", 0.1))
        {
            plan["clock"] = "standard";
        }

        var proration = Object(("month", draw.Of("none", "thirtyDays", "averageMonth", "daysInMonth", "wholeMonths")));
        features.Add($"proration {proration["month"]}");
        if (With("wholeMonthDays", 0.2))
        {
            proration["wholeMonthDays"] = Object(("from", draw.Of(3, 26)), ("to", draw.Of(8, 35)));
            proration["wholeMonthDays"]!["to"] = Math.Max(proration["wholeMonthDays"]!["from"]!.GetValue<int>(), proration["wholeMonthDays"]!["to"]!.GetValue<int>());
        }

        plan["proration"] = proration;
        var rounding = Object(("each", draw.Of("line", "bill")), ("mode", draw.Of("halfUp", "halfEven")));
        features.Add($"rounding {rounding["each"]} {rounding["mode"]}");
        if (With("rounding decimals", 0.3))
        {
            rounding["decimals"] = draw.Between(0, 4);
        }

        plan["rounding"] = rounding;
        if (With("billingMonth", 0.3))
        {
            plan["billingMonth"] = draw.Of("firstDay", "lastDay", "readingDate");
        }

        if (With("billingSeasons", 0.25))
        {
            var months = Enumerable.Range(1, 12).Select(month => month.ToString(System.Globalization.CultureInfo.InvariantCulture)).ToList();
            var parts = draw.Chance(0.3) ? draw.Partition(months) : [.. months.GroupBy(month => int.Parse(month, System.Globalization.CultureInfo.InvariantCulture) % 2).Select(group => group.ToArray())];
            plan["billingSeasons"] = new JsonArray([.. parts.Select((part, index) =>
            {
                billingSeasons.Add($"bills {index}");
                return Object(
                    ("name", $"bills {index}"),
                    ("months", new JsonArray([.. part.Select(month => (JsonNode)JsonValue.Create(int.Parse(month, System.Globalization.CultureInfo.InvariantCulture)))])));
            })]);
        }
    }

    private void AddOptions()
    {
        if (!With("options", 0.25))
        {
            return;
        }

        var list = new JsonArray();
        for (var index = 0; index < draw.Between(1, 2); index++)
        {
            string[] values = draw.Chance(0.5) ? ["a", "b"] : ["a", "b", "c"];
            options.Add(($"option {index}", values));
            list.Add(Object(("name", $"option {index}"), ("choices", Draw.Array(values)), ("default", draw.Of(values))));
            if (draw.Chance(0.6))
            {
                choices[$"option {index}"] = draw.Of(values);
            }
        }

        plan["options"] = list;
    }

    private JsonObject When()
    {
        var (name, values) = draw.Of(options);
        return Object((name, Draw.Array(draw.Some(values))));
    }

    /// <summary>Anything without a duty to cover everything can be conditional.</summary>
    private void Condition(JsonObject item)
    {
        if (options.Count > 0 && With("when", 0.3))
        {
            item["when"] = When();
        }
    }

    /// <summary>A random scope; <paramref name="periods"/> where the charge can name them.</summary>
    private CalendarDraft AddScope(JsonObject charge, bool periods)
    {
        var calendar = calendars[""];
        if (calendars.Count > 1 && With("further calendar", 0.35))
        {
            calendar = calendars["second"];
            charge["calendar"] = "second";
        }

        if (calendar.Seasons.Count > 0 && With("scope seasons", 0.3))
        {
            charge["seasons"] = Draw.Array(draw.Some(calendar.Seasons));
        }

        if (periods && calendar.Periods.Count > 0 && With("scope periods", 0.35))
        {
            charge["periods"] = Draw.Array(draw.Some(calendar.Periods));
        }

        if (billingSeasons.Count > 0 && With("scope billingSeasons", 0.35))
        {
            charge["billingSeasons"] = Draw.Array(draw.Some(billingSeasons));
        }

        AddDates(charge);
        Condition(charge);
        return calendar;
    }

    private void AddDates(JsonObject item)
    {
        if (With("from or until", 0.2))
        {
            var kind = draw.Between(0, 2);
            var from = series.SomeDate(draw);
            if (kind != 1)
            {
                item["from"] = Text(from);
            }

            if (kind != 0)
            {
                item["until"] = Text(kind == 1 ? from : from.PlusDays(draw.Between(0, 3)));
            }
        }
    }

    private Carried CarriedIn()
    {
        var first = series.First.ToYearMonth();
        var peaks = demandNames.Where(_ => draw.Chance(0.4))
            .Select(name => new Peak(name, first.PlusMonths(-draw.Between(1, 14)), draw.Number(0, 20, 3))).ToList();
        var carried = new Carried { Peaks = peaks };
        if (peaks.Count > 0)
        {
            features.Add("carried peaks");
        }

        var export = plan["export"];
        if (export?["creditUse"]?.GetValue<string>() is "bankThisBill" or "bankNextBill" && With("carried credit", 0.5))
        {
            return carried with { BankedMoney = draw.Number(0, 30, 2) };
        }

        // What a bank by period is called where the plan has no periods is nobody's business: it is carried in only as it was carried out.
        var isByPeriod = export?["bankBy"]?.GetValue<string>() == "period";
        if (export?["kind"]?.GetValue<string>() == "netMetering" && (!isByPeriod || calendars[""].Periods.Count > 0) && With("carried kWh", 0.5))
        {
            var groups = isByPeriod ? draw.Some(calendars[""].Periods) : [""];
            return carried with { BankedEnergy = groups.ToDictionary(group => group, _ => draw.NextLong(30_000_000)) };
        }

        return carried;
    }
}
