using NodaTime;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Driving;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the body of <c>POST /v1/comparisons</c>.</summary>
public static class ComparisonRequestReader
{
    private static readonly Limits Years = new(1971, 2098) { Whole = true };
    private static readonly Limits AwayPrice = new(0, 20, "per kWh");

    /// <summary>Reads a request.</summary>
    /// <returns>The request, or every fault with its JSON pointer, what must hold and what was found.</returns>
    public static Reading<ComparisonRequest> Read(JsonText json)
    {
        ArgumentNullException.ThrowIfNull(json);
        var faults = new FaultList();
        var request = Read(new JsonField(json.Root, "#", faults));
        return faults.Count > 0 ? Reading<ComparisonRequest>.Refused(faults.ToList()) : request!;
    }

    private static ComparisonRequest? Read(JsonField root)
    {
        if (root.Members(
            "timeZone", "year", "vehicle", "setUps", "ratePlans", "prices", "events", "behaviours", "fixedStart", "calendar", "weather",
            "houseLoad", "awayCharging", "options") is not { } body)
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
        var behaviours = BehaviourReader.Read(body.Required("behaviours"), body.Optional("fixedStart"), zone);
        var calendar = new CalendarReader(clock, VehicleReader.ExtendedLimitOf(vehicle))
            .Read(body.Required("calendar"), SpanOf(year, zone));
        var weatherField = body.Required("weather");
        var weather = new WeatherReader(clock).Read(weatherField);
        var house = HouseLoadReader.Read(body.Optional("houseLoad"), clock, warnings);
        var away = body.Required("awayCharging")?.Members("pricePerKwh") is { } charging
            ? charging.Required("pricePerKwh", AwayPrice.ToString())?.Price(AwayPrice)
            : null;
        var options = OptionsReader.ForComparison(body.Optional("options"));
        if (year is { } y && zone is not null && weather is not null && weather.AsYear(y, zone) is null)
        {
            weatherField!.Value.Fault(
                $"Must cover the whole of {y} for a comparison; hourly temperatures must have a value for each of its hours.");
        }

        foreach (var chosen in plans ?? [])
        {
            // Those for the car's own meter are left out of a year.
            if (chosen.Plan.Metering == Metering.WholeHouse)
            {
                beside.CheckPrices(chosen, SpanOf(year, zone), "", warnings);
                warnings.AddRange(chosen.Warnings);
            }
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
            SetUps = setUps!,
            RatePlans = [.. plans!.Select(p => p.Plan)],
            RatePlanInputs = plans!.ToDictionary(p => p.Plan.Id, beside.For),
            Behaviours = behaviours!,
            Calendar = new DrivingCalendar(calendar!.Trips),
            Weather = weather!.AsYear(year.Value, zone!)!,
            HouseLoad = house is null ? null : HouseLoad.Hourly(house),
            AwayPricePerKwh = away!.Value,
            GridMinutes = (int)options.GridStep.TotalMinutes,
            TripConfidence = options.TripConfidence,
            ShortfallOrder = options.ShortfallOrder,
        };
        foreach (var contradiction in YearCaseCheck.Contradictions(question))
        {
            body.Faults.Add("#", contradiction);
        }

        return new ComparisonRequest(question, options, calendar.Ignored, [.. warnings, .. calendar.Warnings]);
    }

    private static Interval? SpanOf(int? year, HouseholdZone? zone) => year is { } y && zone is not null
        ? new Interval(zone.StartOf(new LocalDate(y, 1, 1)), zone.StartOf(new LocalDate(y + 1, 1, 1)))
        : null;
}
