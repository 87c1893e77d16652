using NodaTime;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the body of <c>POST /v1/comparisons</c>.</summary>
public static class ComparisonRequestReader
{
    private static readonly Limits Years = new(1971, 2098) { Whole = true };

    /// <summary>Reads a request.</summary>
    /// <returns>The request, or every fault with its JSON pointer, what must hold and what was found.</returns>
    public static Reading<ComparisonRequest> Read(JsonText json)
    {
        ArgumentNullException.ThrowIfNull(json);
        var faults = new FaultList();
        var (scenario, laid) = ScenarioReader.Read(new JsonField(json.Root, "#", faults));
        var request = Read(new JsonField(laid, "#", faults), scenario, CanonicalJson.HashOf(json.Root));
        return faults.Count > 0 ? Reading<ComparisonRequest>.Refused(faults.ToList()) : request!;
    }

    private static ComparisonRequest? Read(JsonField root, Scenario? scenario, string inputHash)
    {
        if (root.Members(
            "timeZone", "year", "vehicle", "setUps", "ratePlans", "prices", "events", "behaviours", "fixedStart", "byNight", "housePlan", "calendar", "weather",
            "houseLoad", "calibration", "awayCharging", "today", "lifeCycle", "panel", "scenario", "options") is not { } body)
        {
            return null;
        }

        var warnings = new List<string>();
        var zone = ZoneReader.Read(body.Required("timeZone"));
        var clock = new DocumentClock(zone, warnings);
        var year = (int?)body.Number("year", Years);
        var vehicle = VehicleReader.Read(body.Required("vehicle"));
        var setUps = SetUpReader.Read(body.Required("setUps"));
        var plans = RatePlanChoice.ReadList(body.Required("ratePlans"));
        var beside = new BesideThePlans(body, clock, plans);
        var behaviours = BehaviourReader.Read(body.Required("behaviours"), body.Optional("fixedStart"), body.Optional("byNight"), zone);
        var calendar = new CalendarReader(clock, VehicleReader.ExtendedLimitOf(vehicle))
            .Read(body.Required("calendar"), SpanOf(year, zone));
        var weather = WeatherYearsReader.Read(body.Required("weather"), clock, year, zone);
        var housePlan = HousePlan(body.Optional("housePlan"), plans);
        var house = HouseLoadReader.Read(body.Optional("houseLoad"), clock, warnings);
        var calibration = CalibrationReader.Read(body);
        var away = AwayChargingReader.Read(body.Required("awayCharging"), vehicle);
        var today = TodayReader.Read(body.Optional("today"), setUps, plans, behaviours?.Select(b => b.Name).ToArray());
        var lifeCycle = LifeCycleReader.Read(body.Optional("lifeCycle"), year);
        var panel = PanelReader.Read(body.Optional("panel"), clock, warnings);
        var options = OptionsReader.ForComparison(body.Optional("options"));
        if (body.Has("lifeCycle") && !body.Has("today"))
        {
            body.Faults.Add("#/today", "Is missing. Life-cycle cost is held against an explicit reference case: name today's setUp, ratePlan and behaviour.");
        }

        foreach (var chosen in plans ?? [])
        {
            beside.CheckPrices(chosen, SpanOf(year, zone), "", warnings);
            warnings.AddRange(chosen.Warnings);
        }

        if (body.Faults.Count > 0)
        {
            return null;
        }

        var question = new YearCase
        {
            Zone = zone!,
            Year = year!.Value,
            Vehicle = vehicle!,
            SetUps = [.. setUps!.Select(s => s.SetUp)],
            RatePlans = [.. plans!.Select(p => p.Plan)],
            RatePlanInputs = plans!.ToDictionary(p => p.Plan.Id, beside.For),
            Behaviours = behaviours!,
            Calendar = new DrivingCalendar(calendar!.Trips),
            Weather = weather!.Years[0],
            FurtherWeather = [.. weather.Years.Skip(1)],
            HousePlan = housePlan,
            HouseLoad = house is null ? null : HouseLoad.Hourly(house),
            AwayPricePerKwh = away!.PricePerKwh,
            Public = away.Place,
            GridMinutes = (int)options.GridStep.TotalMinutes,
            TripConfidence = options.TripConfidence,
            ShortfallOrder = options.ShortfallOrder,
        };
        var decision = new DecisionCase
        {
            Year = question,
            SetUps = [.. setUps!.Select(s => s.Offered(question.RatePlans[0].Currency, s.SetUp.Name == today?.SetUp))],
            Today = today,
            LifeCycle = lifeCycle,
            Panel = panel,
            Winters = options.Winters ?? weather.IsList,
            BreakEvens = options.BreakEvens,
            Uncertainty = options.Uncertainty,
        };
        foreach (var contradiction in DecisionCheck.Contradictions(decision))
        {
            body.Faults.Add("#", contradiction);
        }

        return new ComparisonRequest
        {
            Decision = decision,
            Options = options,
            Scenario = scenario,
            Calibration = calibration,
            House = HouseEvidence.Of(body.Optional("houseLoad")),
            InputHash = inputHash,
            Ignored = calendar.Ignored,
            Warnings = [.. warnings, .. calendar.Warnings],
        };
    }

    private static string? HousePlan(JsonField? maybe, IReadOnlyList<ChosenRatePlan>? plans)
    {
        if (maybe is not { } field || field.Text(200) is not { } id)
        {
            return null;
        }

        if (plans?.Any(p => p.Plan.Id == id && p.Plan.Metering == Metering.WholeHouse) == false)
        {
            field.Fault("Must be one of the whole-house rate plans that are compared.");
        }

        return id;
    }

    private static Interval? SpanOf(int? year, HouseholdZone? zone) => year is { } y && zone is not null
        ? new Interval(zone.StartOf(new LocalDate(y, 1, 1)), zone.StartOf(new LocalDate(y + 1, 1, 1)))
        : null;
}
